"""Keep native libraries from writing to the terminal."""

import os
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager

_STDERR_FD = 2


class _Silencer:
    """Takes the descriptor away for the first who wants silence, gives it back after the last.

    Threads that each put back what they found would leave the process mute for good.
    """

    def __init__(self) -> None:
        self._lock = threading.Lock()
        self._wanted_by = 0
        self._saved_fd: int | None = None

    def start(self) -> None:
        with self._lock:
            self._wanted_by += 1
            if self._wanted_by == 1:
                self._saved_fd = _sent_nowhere()

    def stop(self) -> None:
        with self._lock:
            self._wanted_by -= 1
            if self._wanted_by == 0 and self._saved_fd is not None:
                os.dup2(self._saved_fd, _STDERR_FD)
                os.close(self._saved_fd)
                self._saved_fd = None


_silencer = _Silencer()


@contextmanager
def native_stderr_silenced() -> Iterator[None]:
    """Send what the process writes to file descriptor 2 nowhere, for a short while.

    MediaPipe and TFLite log some fifty lines on starting, straight to the descriptor, and no
    environment variable stops them.  Errors still arrive as exceptions.  Any number of threads
    may want it at once.
    """
    sys.stderr.flush()
    _silencer.start()
    try:
        yield
    finally:
        _silencer.stop()


def _sent_nowhere() -> int | None:
    """A copy of the descriptor as it was; None if there is none."""
    try:
        saved_fd = os.dup(_STDERR_FD)
    except OSError:  # a windowed program may have no standard error at all
        return None
    nowhere_fd = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere_fd, _STDERR_FD)
    os.close(nowhere_fd)
    return saved_fd
