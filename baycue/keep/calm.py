"""Work that must never be in the way."""

import os
import sys
import threading
from contextlib import suppress

_NICE = 15


def give_way_to_all() -> None:
    """The same, and more so: only what the processor has left over when all else is served.

    ``SCHED_IDLE`` on Linux; the threads that the calling one starts inherit it.
    """
    give_way()
    if sys.platform == "linux":
        with suppress(OSError):
            os.sched_setscheduler(0, os.SCHED_IDLE, os.sched_param(0))


def give_way() -> None:
    """Let the calling thread run only when nobody else wants the processor.

    On Linux each thread has a niceness of its own, which the threads it starts inherit; where
    there is none this does nothing.
    """
    if sys.platform == "linux":
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), _NICE)
