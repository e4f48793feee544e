"""The big screen of a live bay, cheap enough to be called at every turn of a 60 Hz loop."""

import pygame

from baycue.cues.display import SIZE_PX, Window
from baycue.cues.keys import Key, ReplayKey, wish
from baycue.cues.letters import Viewing
from baycue.cues.live_page import LivePainter
from baycue.cues.live_words import LivePage, live_page
from baycue.live.view import LiveView

_UNCOVERED = (pygame.WINDOWEXPOSED, pygame.WINDOWSHOWN, pygame.WINDOWRESTORED)


class LiveScreen:
    """One window that shows views and hands back what the golfer asks for.

    Draws only when what it says has changed or the window was resized, and never waits.
    ``display``: which screen, from 0.  Raises OutputError where no window can be opened.
    """

    def __init__(
        self,
        display: int = 0,
        full_screen: bool = False,
        size_px: tuple[int, int] = SIZE_PX,
        viewing: Viewing | None = None,
    ) -> None:
        self._window = Window(size_px, full_screen, display)
        self._painter = LivePainter(viewing or Viewing())
        self._shown: tuple[LivePage, tuple[int, int]] | None = None
        self._frames_drawn = 0

    @property
    def frames_drawn(self) -> int:
        """How often the window was drawn anew."""
        return self._frames_drawn

    def show(self, view: LiveView) -> None:
        """Put a view before the golfer."""
        surface = self._window.surface
        wanted = live_page(view), surface.get_size()
        if wanted == self._shown:
            return
        self._painter.draw(surface, wanted[0])
        self._window.show()
        self._shown = wanted
        self._frames_drawn += 1

    def keys(self) -> tuple[Key | ReplayKey, ...]:
        """What was asked for since last asked, in order; F goes over to full screen and back."""
        wishes: list[Key | ReplayKey] = []
        for event in pygame.event.get():
            if event.type in _UNCOVERED:
                self._shown = None
            elif event.type == pygame.KEYDOWN and event.key in (pygame.K_f, pygame.K_F11):
                self._window.toggle_full_screen()
                self._shown = None
            elif (key := wish(event)) is not None:
                wishes.append(key)
        return tuple(wishes)

    def describe(self) -> str:
        """What was really opened."""
        return self._window.describe()

    def close(self) -> None:
        """Close the window."""
        self._window.close()
