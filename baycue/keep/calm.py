"""Work that must never be in the way."""

import ctypes
import os
import sys
import threading
from contextlib import suppress

_NICE, _NICEST = 15, 19
_WINDOWS_IDLE = 0x40
"""``IDLE_PRIORITY_CLASS``."""


def give_way(niceness: int = _NICE) -> None:
    """Let the calling thread run only when nobody else wants the processor.

    On Linux each thread has a niceness of its own, which the threads it starts inherit; where
    there is none this does nothing.
    """
    if sys.platform == "linux":
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), niceness)


def give_way_to_all() -> None:
    """The same, and to what itself gives way.

    Not ``SCHED_IDLE``: on a crowded machine that stands still for seconds, also with the log open.
    """
    give_way(_NICEST)


def process_gives_way() -> None:
    """The whole of a process that has just begun, as far as the system can: on Linux its threads
    to come, on a Mac all of it, on Windows as its idle class.
    """
    if sys.platform == "win32":  # pragma: no cover
        kernel = ctypes.windll.kernel32
        kernel.SetPriorityClass(kernel.GetCurrentProcess(), _WINDOWS_IDLE)
    else:
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, 0, _NICEST)
