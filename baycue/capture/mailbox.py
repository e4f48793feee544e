"""A place for one letter: the newest, for a reader who has no time for the others."""

import threading
from typing import Generic, TypeVar

Letter = TypeVar("Letter")


class Mailbox(Generic[Letter]):
    """Holds the newest letter; putting never waits, taking waits for one.

    ``overwritten`` counts letters that were replaced unread.
    """

    def __init__(self) -> None:
        self._letter: Letter | None = None
        self._closed = False
        self._came = threading.Condition()
        self.overwritten = 0

    def put(self, letter: Letter) -> None:
        """Replace what lies there."""
        with self._came:
            self.overwritten += self._letter is not None
            self._letter = letter
            self._came.notify()

    def take(self, timeout_s: float) -> Letter | None:
        """The newest letter, once; None if none came in time or the box was closed."""
        with self._came:
            self._came.wait_for(lambda: self._letter is not None or self._closed, timeout_s)
            letter, self._letter = self._letter, None
            return letter

    def close(self) -> None:
        """Wake whoever waits; what lies there can still be taken."""
        with self._came:
            self._closed = True
            self._came.notify_all()
