"""One input within its time, where the watchdog does not stand outside."""

import time

from tests.fuzz.arena import Arena
from tests.fuzz.target import Target

LIMIT_S = 2.0
"""Of processor time, for one input."""


def feed_bounded(target: Target, arena: Arena, data: bytes) -> None:
    """AssertionError if it took too long or touched what is not its own."""
    work, began_s = arena.clear(), time.process_time()
    target.takes(data, work)
    assert time.process_time() - began_s < LIMIT_S, "took too long"
    assert arena.touched() == ""
