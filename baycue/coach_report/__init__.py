"""How the practice went, for the coach: one page, or a text for the terminal.

``from_log`` reads what was kept into a ``PracticeRecord``; ``figures`` counts; ``plots`` and
``pictures`` show; ``page`` and ``text`` tell.
"""
