"""The live screen drawn: a main page, and the strip at its foot."""

import pygame

from baycue.cues.canvas import Canvas, DrawnLine
from baycue.cues.hold_page import draw_hold
from baycue.cues.letters import Viewing
from baycue.cues.live_words import LivePage, MainPage, Message, VerdictPage
from baycue.cues.message import draw_message
from baycue.cues.practice_page import draw_drill, draw_summary
from baycue.cues.practice_words import DrillPage, HoldPage, PracticePage
from baycue.cues.screen import CAUTION, draw_verdict, letter_unit_px
from baycue.cues.set_up_page import draw_set_up_rows
from baycue.cues.strip import StripPlace, draw_strip, small_print, strip_height_px
from baycue.practice.summary import Summary
from baycue.replay.page import ReplayPage, TimeLine, draw_replay
from baycue.setup.report import SetUpReport

_MARGIN = 0.6
_CROWDED = 3
"""Targets from which on the small print makes room for them, all but the caution."""


def draw_live(
    surface: pygame.Surface, page: LivePage, viewing: Viewing | None = None
) -> tuple[DrawnLine, ...]:
    """Fill the surface with a page; returns every line as drawn."""
    return LivePainter(viewing or Viewing()).draw(surface, page)


class LivePainter:
    """Draws pages one after another and keeps the last main page, the costly part.

    ``time_line``: where the replay's was drawn; None while something else is shown.
    """

    def __init__(self, viewing: Viewing) -> None:
        self._viewing = viewing
        self._main: MainPage | None = None
        self.time_line: TimeLine | None = None
        self._picture = pygame.Surface((0, 0))
        self._lines: tuple[DrawnLine, ...] = ()

    def draw(self, surface: pygame.Surface, page: LivePage) -> tuple[DrawnLine, ...]:
        """Fill the surface; returns every line as drawn."""
        width, height = surface.get_size()
        unit = letter_unit_px((width, height), self._viewing)
        margin = _MARGIN * unit
        small = small_print(_told(page), unit, width - 2 * margin)
        top = max(height - round(strip_height_px(unit, len(small))), 1)
        self._draw_main(page.main, (width, top), unit)
        surface.blit(self._picture, (0, 0))
        canvas = Canvas(surface)
        draw_strip(canvas, page.strip, StripPlace(top, unit, margin), small)
        return (*self._lines, *canvas.lines)

    def _draw_main(self, main: MainPage, size: tuple[int, int], unit_px: float) -> None:
        if main == self._main and self._picture.get_size() == size:
            return
        self._picture = pygame.Surface(size)
        canvas = Canvas(self._picture)
        self.time_line = None
        if isinstance(main, VerdictPage):
            self._lines = draw_verdict(
                self._picture, main.verdict, self._viewing, main.tally, with_caution=False
            )
        elif isinstance(main, ReplayPage):
            self.time_line = draw_replay(self._picture, main)
            self._lines = ()
        elif isinstance(main, SetUpReport):
            draw_set_up_rows(canvas, main, unit_px)
            self._lines = tuple(canvas.lines)
        else:
            _draw_words(canvas, main, unit_px)
            self._lines = tuple(canvas.lines)
        self._main = main


def _draw_words(canvas: Canvas, main: Message | PracticePage, unit_px: float) -> None:
    """A page that is no verdict and no set-up check."""
    if isinstance(main, DrillPage):
        draw_drill(canvas, main, unit_px)
    elif isinstance(main, HoldPage):
        draw_hold(canvas, main, unit_px)
    elif isinstance(main, Summary):
        draw_summary(canvas, main, unit_px)
    else:
        draw_message(canvas, main, unit_px)


def _told(page: LivePage) -> tuple[str, ...]:
    """The small print; some pages have cautions of their own."""
    if isinstance(page.main, SetUpReport) or (isinstance(page.main, DrillPage) and page.main.small):
        return page.strip.health, page.strip.help
    if isinstance(page.main, ReplayPage):
        return (CAUTION,)
    if isinstance(page.main, VerdictPage) and len(page.main.verdict.targets) >= _CROWDED:
        return (CAUTION,)
    return page.strip.health, page.strip.help, CAUTION
