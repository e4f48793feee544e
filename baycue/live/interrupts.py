"""Ctrl-C, noted and never raised: an exception may fall where nobody can tell of it and be lost.

Python raises KeyboardInterrupt wherever the main thread happens to be; inside a callback of a C
library or a finaliser it is printed, or not even that, and the program goes on.
"""

import signal
import threading
from types import FrameType, TracebackType
from typing import Self


class Interrupts:
    """Notes the first Ctrl-C while it is entered; a second one does what it always does.

    ``came`` is a plain attribute: a signal handler that took a lock could wait for the thread
    that it interrupted.  Does nothing in any thread but the main one, which alone has handlers.
    """

    def __init__(self) -> None:
        self.came = False
        self._before: object = None

    def __enter__(self) -> Self:
        if threading.current_thread() is threading.main_thread():
            self._before = signal.getsignal(signal.SIGINT)
            signal.signal(signal.SIGINT, self._note)
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self._restore()

    def _note(self, _number: int, _frame: FrameType | None) -> None:
        self.came = True
        self._restore()

    def _restore(self) -> None:
        if callable(self._before) or isinstance(self._before, int):
            signal.signal(signal.SIGINT, self._before)
        self._before = None
