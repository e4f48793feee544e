"""The page of a hold: what to do, a gauge with its window, and how long it is held."""

from dataclasses import dataclass

import pygame

from baycue.cues.band import widest_letters
from baycue.cues.canvas import Canvas
from baycue.cues.palette import GROUND, OUTCOME, PANEL, QUIET, RULE, TEXT
from baycue.cues.practice_page import draw_fitting
from baycue.cues.practice_words import HoldPage
from baycue.verdict.verdict import Outcome

_BAND, _GAUGE = 1.7, 1.6
_MUST, _SMALL, _GAP = 0.74, 0.3, 0.36
"""Cap heights, and the gap between lines, units; 0.73 is the least that can be read."""
_WINDOW = 0.25


@dataclass(frozen=True, slots=True)
class _Gauge:
    """Where the gauge stands, px, and which way it runs."""

    box: pygame.Rect
    upright: bool

    def along(self, place: float) -> float:
        """Where a place from -1 to 1 is, px from the top or from the left."""
        if self.upright:
            return self.box.centery - place * self.box.height / 2
        return self.box.centerx + place * self.box.width / 2


def draw_hold(canvas: Canvas, page: HoldPage, unit_px: float) -> None:
    """Fill the canvas: the band says what to do, the gauge how far it is."""
    width, height = canvas.surface.get_size()
    margin, band = 0.6 * unit_px, _BAND * unit_px
    colour = OUTCOME[Outcome.PASS if page.is_inside else Outcome.TOO_CLOSE]
    canvas.surface.fill(GROUND)
    canvas.surface.fill(colour, (0, 0, width, round(band)))
    letters = widest_letters(page.headline, width - 2 * margin, 0.5 * band)
    canvas.put([page.headline], letters, GROUND, margin, (band - letters.cap_px) / 2, True)
    top, foot = band + 0.3 * unit_px, height - 0.3 * unit_px
    if page.upright:
        thick = round(_GAUGE * unit_px)
        box = pygame.Rect(round(width - margin - thick), round(top), thick, round(foot - top))
        right = box.left - margin
    else:
        thick = round(0.5 * _GAUGE * unit_px)
        box = pygame.Rect(round(margin), round(foot - thick), round(width - 2 * margin), thick)
        right, foot = width - margin, box.top - 0.3 * unit_px
    _draw_gauge(canvas, _Gauge(box, page.upright), page, unit_px)
    _draw_words(canvas, page, unit_px, right, top, foot)


def _draw_gauge(canvas: Canvas, gauge: _Gauge, page: HoldPage, unit_px: float) -> None:
    """The window as a field of its own, the golfer as a bar across, told by shape and place."""
    surface, box = canvas.surface, gauge.box
    surface.fill(PANEL, box)
    low, high = sorted((gauge.along(-_WINDOW), gauge.along(_WINDOW)))
    field = box.copy()
    if gauge.upright:
        field.top, field.height = round(low), round(high - low)
    else:
        field.left, field.width = round(low), round(high - low)
    surface.fill(RULE, field)
    pygame.draw.rect(surface, OUTCOME[Outcome.PASS], field, max(round(0.08 * unit_px), 2))
    at, half = gauge.along(page.place), 0.14 * unit_px
    bar = box.inflate(0.3 * unit_px, 0) if gauge.upright else box.inflate(0, 0.3 * unit_px)
    if gauge.upright:
        bar.top, bar.height = round(at - half), round(2 * half)
    else:
        bar.left, bar.width = round(at - half), round(2 * half)
    surface.fill(TEXT, bar.clip(surface.get_rect()))


def _draw_words(
    canvas: Canvas, page: HoldPage, unit_px: float, right_px: float, top_px: float, foot_px: float
) -> None:
    """From the foot up: a bar of how long it has been held, in words, the value; then the rest."""
    margin = 0.6 * unit_px
    room = right_px - margin
    high = max(round(0.3 * unit_px), 2)
    foot = foot_px - high
    canvas.surface.fill(RULE, (round(margin), round(foot), round(room), high))
    done = round(room * page.held)
    canvas.surface.fill(OUTCOME[Outcome.PASS], (round(margin), round(foot), done, high))
    for text, size, must_read in (
        (page.held_words, _MUST, True),
        (page.spread, _SMALL, False),
        (page.value, _MUST, True),
    ):
        letters = widest_letters(text, room, max(size * unit_px + 0.99, 1))
        foot -= letters.cap_px + _GAP * unit_px
        canvas.put([text], letters, TEXT if must_read else QUIET, margin, foot, must_read)
    width = round(right_px + margin)
    part = canvas.surface.subsurface((0, 0, width, canvas.surface.get_height()))
    draw_fitting(Canvas(part, canvas.lines), page.told, unit_px, top_px, foot - _GAP * unit_px)
