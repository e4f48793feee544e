"""The page of a hold: what to do, a gauge with its window, and how long it is held."""

from dataclasses import dataclass

import pygame

from baycue.cues.band import widest_letters
from baycue.cues.canvas import Canvas
from baycue.cues.letters import letters_of
from baycue.cues.palette import GROUND, OUTCOME, PANEL, QUIET, RULE, TEXT
from baycue.cues.practice_page import draw_fitting
from baycue.cues.practice_words import HoldPage
from baycue.verdict.verdict import Outcome

_BAND, _GAUGE = 2.2, 1.6
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
    top, foot = band + 0.4 * unit_px, height - 0.4 * unit_px
    if page.upright:
        thick = round(_GAUGE * unit_px)
        box = pygame.Rect(round(width - margin - thick), round(top), thick, round(foot - top))
        right = box.left - margin
    else:
        thick = round(0.8 * _GAUGE * unit_px)
        box = pygame.Rect(round(margin), round(foot - thick), round(width - 2 * margin), thick)
        right, foot = width - margin, box.top - 0.4 * unit_px
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
    """What is held for, the value, and how long it has been held, with its bar."""
    margin = 0.6 * unit_px
    room = right_px - margin
    part = canvas.surface.subsurface((0, 0, round(right_px + margin), canvas.surface.get_height()))
    lower = foot_px - 3.2 * unit_px
    inner = Canvas(part, canvas.lines)
    draw_fitting(inner, page.told, unit_px, top_px, lower)
    letters = widest_letters(page.value, room, 0.74 * unit_px)
    canvas.put([page.value], letters, QUIET, margin, lower, True)
    held = letters_of(round(0.9 * unit_px))
    words_top = lower + 1.3 * unit_px
    canvas.put([page.held_words], held, TEXT, margin, words_top, True)
    bar_top = words_top + 1.25 * unit_px
    high = max(round(0.35 * unit_px), 2)
    canvas.surface.fill(RULE, (round(margin), round(bar_top), round(room), high))
    done = round(room * page.held)
    canvas.surface.fill(OUTCOME[Outcome.PASS], (round(margin), round(bar_top), done, high))
