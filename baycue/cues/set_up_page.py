"""The set-up check on the big screen: what to move first, in letters for who stands at the mat."""

import pygame

from baycue.cues.band import widest_letters
from baycue.cues.canvas import Canvas, DrawnLine
from baycue.cues.letters import DESCENDER, Letters, Viewing, letters_of
from baycue.cues.marks import COLOUR, mark_picture
from baycue.cues.palette import GROUND, QUIET, TEXT
from baycue.cues.screen import letter_unit_px
from baycue.setup.report import Answer, SetUpReport, SetUpRow

SET_UP_CAUTIONS = (
    "Nobody, no screen and no camera within the club's reach.",
    "The facility's rules come first.",
    "Stop if anything hurts.",
)

_BAND = 1.6
_DO, _SMALL = 0.74, 0.30
"""Cap heights, units: what to do must be read from the mat, what is well need not."""


def draw_set_up(
    surface: pygame.Surface, report: SetUpReport, viewing: Viewing | None = None
) -> tuple[DrawnLine, ...]:
    """Fill the surface with a report; returns every line as drawn."""
    canvas = Canvas(surface)
    draw_set_up_rows(canvas, report, letter_unit_px(surface.get_size(), viewing or Viewing()))
    return tuple(canvas.lines)


def headline(report: SetUpReport) -> str:
    """``SET-UP: GO``, or how much there is to mend."""
    wrong = len(report.of(Answer.NO_GO))
    return f"SET-UP: {wrong} TO MEND" if wrong else "SET-UP: GO"


def draw_set_up_rows(canvas: Canvas, report: SetUpReport, unit_px: float) -> None:
    """The band, what to do in large letters, what is well in small, and the cautions."""
    width, height = canvas.surface.get_size()
    answer = Answer.GO if report.ready else Answer.NO_GO
    margin, band = 0.6 * unit_px, _BAND * unit_px
    canvas.surface.fill(GROUND)
    _draw_band(canvas, headline(report), answer, margin, band)
    small = letters_of(max(round(_SMALL * unit_px), 1))
    cautions = small.wrap("  ".join(SET_UP_CAUTIONS), width - 2 * margin)
    foot = height - small.height_px(len(cautions)) - 0.7 * small.cap_px
    canvas.put(cautions, small, TEXT, margin, foot, False)
    foot -= 0.8 * small.cap_px
    asks = [*report.of(Answer.NO_GO), *report.of(Answer.UNSURE)]
    well = SetUpRow("", Answer.GO, ", ".join(row.name for row in report.of(Answer.GO)))
    if well.found and len(asks) > 1:
        foot = _draw_well(canvas, well, small, margin, foot)
    elif well.found:
        asks.append(well)
    _draw_asks(canvas, asks, unit_px, band, foot)


def _draw_band(
    canvas: Canvas, words: str, answer: Answer, margin_px: float, height_px: float
) -> None:
    width = canvas.surface.get_width()
    canvas.surface.fill(COLOUR[answer], (0, 0, width, round(height_px)))
    size = round(0.6 * height_px)
    mark = mark_picture(answer, size, GROUND)
    canvas.surface.blit(mark, (round(margin_px), round((height_px - size) / 2)))
    left = margin_px + 1.4 * size
    letters = widest_letters(words, width - margin_px - left, 0.5 * height_px)
    canvas.put([words], letters, GROUND, left, (height_px - letters.cap_px) / 2, True)


def _draw_well(
    canvas: Canvas, well: SetUpRow, small: Letters, margin_px: float, foot_px: float
) -> float:
    """The names of what is well, above ``foot_px``; returns its top."""
    size = round(1.3 * small.cap_px)
    left = margin_px + 1.6 * size
    lines = small.wrap(_ask(well), canvas.surface.get_width() - margin_px - left)
    top = foot_px - small.height_px(len(lines)) - 0.4 * small.cap_px
    mark = mark_picture(Answer.GO, size, COLOUR[Answer.GO])
    canvas.surface.blit(mark, (round(margin_px), round(top - 0.15 * small.cap_px)))
    canvas.put(lines, small, QUIET, left, top, False)
    return top - 0.9 * small.cap_px


def _draw_asks(
    canvas: Canvas, asks: list[SetUpRow], unit_px: float, top_px: float, foot_px: float
) -> None:
    """What to do, the wrong before the unsure, as many as there is room for."""
    letters = letters_of(max(int(_DO * unit_px + 0.99), 1))
    margin, mark_px = 0.6 * unit_px, round(1.2 * letters.cap_px)
    left = margin + 1.4 * mark_px
    width = canvas.surface.get_width() - margin - left
    top = top_px + 0.7 * letters.cap_px
    for number, row in enumerate(asks):
        lines = letters.wrap(_ask(row), width)
        height = letters.height_px(len(lines)) + DESCENDER * letters.cap_px
        if top + height > foot_px:
            _draw_more(canvas, len(asks) - number, letters, left, top, foot_px)
            return
        mark = mark_picture(row.answer, mark_px, COLOUR[row.answer])
        canvas.surface.blit(mark, (round(margin), round(top - 0.1 * letters.cap_px)))
        colour = QUIET if row.answer is Answer.UNSURE else TEXT
        top = canvas.put(lines, letters, colour, left, top, row.answer is Answer.NO_GO)
        top += 0.85 * letters.cap_px


def _draw_more(
    canvas: Canvas, count: int, letters: Letters, left_px: float, top_px: float, foot_px: float
) -> None:
    small = letters_of(max(letters.cap_px // 2, 1))
    if top_px + 1.3 * small.cap_px <= foot_px:
        canvas.put([f"and {count} more"], small, QUIET, left_px, top_px, False)


def _ask(row: SetUpRow) -> str:
    if row.answer is Answer.GO:
        return f"Go: {row.found}"
    return row.do or f"{row.name}: {row.found}"
