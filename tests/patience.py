"""Waiting for what gives way to everything, which on a busy machine may take long."""

import time
from collections.abc import Callable

_LONGEST_S = 240.0


def wait_until(ready: Callable[[], bool]) -> None:
    """Look again and again; AssertionError if it never comes."""
    deadline = time.monotonic() + _LONGEST_S
    while not ready():
        assert time.monotonic() < deadline, "waited in vain"
        time.sleep(0.005)
