"""Baycue: a recorded or live golf swing in, the coach's verdict out.

Rooms, in the order a frame travels: ``capture`` -> ``pose`` -> ``club`` -> ``swing``
-> ``measures`` -> ``plan`` -> ``verdict`` -> ``cues``.  ``synthetic`` makes recordings
whose truth is known; ``spine`` wires the rooms together; ``cli`` is the front door.
"""
