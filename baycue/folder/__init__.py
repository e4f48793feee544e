"""A folder of recordings at once: every clip through one function, in parallel, resumable.

``clips`` finds them, ``clip_result`` scores one, ``processes`` or ``cluster`` do so for many,
``store`` keeps each result, ``summary`` tells of them all.
"""
