"""The big screen of a live bay, cheap enough to be called at every turn of a 60 Hz loop."""

from collections.abc import Callable

import pygame

from baycue.cues.display import SIZE_PX
from baycue.cues.distant_window import DistantWindow
from baycue.cues.keys import Key, Pointed, ReplayPointed, WindowWish, Wish
from baycue.cues.lasting_window import LastingWindow
from baycue.cues.letters import Viewing
from baycue.cues.live_page import LivePainter
from baycue.cues.live_words import LivePage, live_page
from baycue.live.view import LiveView


def _unsaid(line: str) -> None:
    """To nobody."""


class LiveScreen:
    """One window that shows views and hands back what the golfer asks for.

    Draws only when what it says has changed or the window was resized, and never waits.
    ``display``: which screen, from 0.  ``say`` is told when the display is lost, and when it is
    back.  Raises OutputError where no window can be opened.
    """

    def __init__(
        self,
        display: int = 0,
        full_screen: bool = False,
        size_px: tuple[int, int] = SIZE_PX,
        viewing: Viewing | None = None,
        say: Callable[[str], None] = _unsaid,
    ) -> None:
        self._window = LastingWindow(lambda: DistantWindow(size_px, full_screen, display), say)
        self._painter = LivePainter(viewing or Viewing())
        self._shown: tuple[LivePage, pygame.Surface] | None = None
        self._frames_drawn = 0

    @property
    def frames_drawn(self) -> int:
        """How often the window was drawn anew."""
        return self._frames_drawn

    def show(self, view: LiveView) -> None:
        """Put a view before the golfer."""
        surface = self._window.surface()
        if surface is None:
            return
        # A window of another size, or opened again, has another surface.
        wanted = live_page(view), surface
        if wanted == self._shown:
            return
        self._painter.draw(surface, wanted[0])
        self._window.show()
        self._shown = wanted
        self._frames_drawn += 1

    def keys(self) -> tuple[Wish, ...]:
        """What was asked for since last asked, in order; of the replay only while it is shown."""
        told = map(self._of_what_is_shown, self._window.keys())
        return tuple(each for each in told if each is not None)

    def _of_what_is_shown(self, asked: WindowWish) -> Wish | None:
        line = self._painter.time_line
        if isinstance(asked, Key):
            return asked
        if line is None:
            return None
        if isinstance(asked, Pointed):
            return ReplayPointed(asked.how, line.time_at(asked.place_px))
        return asked

    def describe(self) -> str:
        """What was really opened."""
        return self._window.describe()

    def close(self) -> None:
        """Close the window."""
        self._window.close()
