"""Keep native libraries from writing to the terminal."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager

_STDERR_FD = 2


@contextmanager
def native_stderr_silenced() -> Iterator[None]:
    """Send what the process writes to file descriptor 2 nowhere, for a short while.

    MediaPipe and TFLite log some fifty lines on starting, straight to the descriptor, and no
    environment variable stops them.  Errors still arrive as exceptions.
    """
    sys.stderr.flush()
    try:
        saved_fd = os.dup(_STDERR_FD)
    except OSError:  # a windowed program may have no standard error at all
        yield
        return
    nowhere_fd = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere_fd, _STDERR_FD)
    try:
        yield
    finally:
        os.dup2(saved_fd, _STDERR_FD)
        os.close(saved_fd)
        os.close(nowhere_fd)
