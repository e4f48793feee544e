"""Work that must never be in the way."""

import os
import sys
import threading
from contextlib import suppress

_NICE = 15


def give_way() -> None:
    """Let the calling thread run only when nobody else wants the processor.

    On Linux each thread has a niceness of its own, which the threads it starts inherit; where
    there is none this does nothing.
    """
    if sys.platform == "linux":
        with suppress(OSError):
            os.setpriority(os.PRIO_PROCESS, threading.get_native_id(), _NICE)
