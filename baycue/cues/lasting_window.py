"""A window that is opened again when its display was lost and has come back."""

import time
from collections.abc import Callable

import pygame

from baycue.cues.distant_window import DistantWindow
from baycue.cues.keys import WindowWish

_PAUSES_S = (1.0, 2.0, 4.0)
"""Between one try and the next; the last is kept to."""
GONE = "the display is gone; verdicts are told here, and by sound; trying again"
Say = Callable[[str], None]


class LastingWindow:
    """``open_window`` starts one; OutputError from the constructor if the first cannot be opened.

    ``say`` gets a line when it is lost, and one when it is back.  Used by one thread.  Only the
    constructor and ``close`` wait, and ``surface`` for at most two seconds for a lost window whose
    process has not ended yet.
    """

    def __init__(self, open_window: Callable[[], DistantWindow], say: Say) -> None:
        self._open, self._say = open_window, say
        self._window: DistantWindow | None = open_window()
        self._window.wait_until_open()
        self._lost, self._tries, self._try_at_s = False, 0, 0.0

    def surface(self) -> pygame.Surface | None:
        """What to draw on; None while there is no display."""
        window = self._window
        if window is None or not window.is_open:
            # Only being asked has a window notice that it is gone.
            if window is None or window.is_gone:
                self._try_again()
            return None
        if self._lost:
            self._lost, self._tries = False, 0
            self._say(f"the display is back: {window.describe()}")
        return window.surface

    def show(self) -> None:
        """Put what was drawn on the screen."""
        if self._window:
            self._window.show()

    def keys(self) -> tuple[WindowWish, ...]:
        """What was asked for since last asked."""
        return self._window.keys() if self._window else ()

    def describe(self) -> str:
        """What was really opened."""
        return self._window.describe() if self._window else "no window: the display is gone"

    def close(self) -> None:
        """Close it."""
        if self._window:
            self._window.close()
        self._window = None

    def _try_again(self) -> None:
        if not self._lost:
            self._lost = True
            self._say(GONE)
        if self._window is not None:
            self.close()
            self._try_at_s = time.monotonic() + _PAUSES_S[min(self._tries, len(_PAUSES_S) - 1)]
            self._tries += 1
        elif time.monotonic() >= self._try_at_s:
            self._window = self._open()
