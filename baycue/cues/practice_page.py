"""Pages of a session under way: what is next, a rest, some swings told together."""

from collections.abc import Sequence

from baycue.cues.band import fitted_words, widest_letters
from baycue.cues.canvas import Canvas
from baycue.cues.letters import Letters, letters_of
from baycue.cues.marks import COLOUR, mark_picture
from baycue.cues.palette import CALM, GROUND, OUTCOME, QUIET, TEXT
from baycue.cues.practice_words import DrillPage, summary_words
from baycue.cues.shapes import outcome_shape
from baycue.practice.summary import Summary, SummaryRow

_BAND, _SUMMARY_BAND = 1.7, 2.6
_TOLD = (1.25, 1.0, 0.85, 0.74)
_SMALL = 0.27
_SHAPES_PX_UNITS = 1.5


def draw_drill(canvas: Canvas, page: DrillPage, unit_px: float) -> None:
    """Mark and headline in a band, what to do in large letters, cautions in small ones."""
    width, height = canvas.surface.get_size()
    margin, band = 0.6 * unit_px, _BAND * unit_px
    canvas.surface.fill(GROUND)
    canvas.surface.fill(COLOUR[page.stage], (0, 0, width, round(band)))
    size = round(0.6 * band)
    mark = mark_picture(page.stage, size, GROUND)
    canvas.surface.blit(mark, (round(margin), round((band - size) / 2)))
    _draw_headline(canvas, page.headline, margin + 1.4 * size, margin, band)
    small = letters_of(max(round(_SMALL * unit_px), 1))
    foot = _draw_small(canvas, page.small, small, margin, height)
    draw_fitting(canvas, page.told, unit_px, band, foot)


def _draw_headline(
    canvas: Canvas, words: str, left_px: float, margin_px: float, band_px: float
) -> None:
    room = canvas.surface.get_width() - margin_px - left_px
    lines, letters = fitted_words(words, room, band_px)
    pitch = 1.4 * letters.cap_px
    top = (band_px - letters.cap_px - pitch * (len(lines) - 1)) / 2
    for number, line in enumerate(lines):
        canvas.put([line], letters, GROUND, left_px, top + number * pitch, True)


def _draw_small(
    canvas: Canvas, told: Sequence[str], small: Letters, margin_px: float, foot_px: float
) -> float:
    """The small print above ``foot_px``; returns its top."""
    room = canvas.surface.get_width() - 2 * margin_px
    lines = [line for text in told for line in small.wrap(text, room)]
    if not lines:
        return foot_px
    top = foot_px - small.height_px(len(lines)) - 0.9 * small.cap_px
    canvas.put(lines, small, QUIET, margin_px, top, False)
    return top - 0.9 * small.cap_px


def draw_fitting(canvas: Canvas, told: str, unit_px: float, top_px: float, foot_px: float) -> None:
    """Words between two heights, as large as fits; smaller than the least only if it must be."""
    margin = 0.6 * unit_px
    sizes = [size * unit_px for size in _TOLD]
    sizes += [sizes[-1] * 0.9**step for step in range(1, 30)]
    for size in sizes:
        letters = letters_of(max(round(size + 0.49), 1))
        lines = letters.wrap(told, canvas.surface.get_width() - 2 * margin)
        if letters.height_px(len(lines)) + 1.2 * letters.cap_px <= foot_px - top_px:
            break
    top = top_px + (foot_px - top_px - letters.height_px(len(lines))) / 2
    canvas.put(lines, letters, TEXT, margin, top, True)


def draw_summary(canvas: Canvas, summary: Summary, unit_px: float) -> None:
    """How many passed, the shape of each swing in order, and each target's count and values."""
    width, height = canvas.surface.get_size()
    margin, band = 0.6 * unit_px, _SUMMARY_BAND * unit_px
    canvas.surface.fill(GROUND)
    canvas.surface.fill(CALM, (0, 0, width, round(band)))
    _draw_headline(canvas, summary_words(summary), margin, margin, band)
    top = band + 0.5 * unit_px
    top += _draw_shapes(canvas, summary, unit_px, top) + 0.5 * unit_px
    step = (height - top) / max(len(summary.rows), 1)
    for number, row in enumerate(summary.rows):
        _draw_row(canvas, row, unit_px, top + number * step, step)


def _draw_shapes(canvas: Canvas, summary: Summary, unit_px: float, top_px: float) -> float:
    """One shape a swing, oldest first, smaller where there are many; returns their height."""
    margin, count = 0.6 * unit_px, len(summary.outcomes)
    room = (canvas.surface.get_width() - 2 * margin) / count
    size = max(round(min(_SHAPES_PX_UNITS * unit_px, 0.8 * room)), 1)
    for number, outcome in enumerate(summary.outcomes):
        shape = outcome_shape(outcome, size, OUTCOME[outcome], GROUND)
        left = margin + number * min(room, 1.25 * size)
        canvas.surface.blit(shape, (round(left), round(top_px)))
    return float(size)


def _draw_row(
    canvas: Canvas, row: SummaryRow, unit_px: float, top_px: float, height_px: float
) -> None:
    margin = 0.6 * unit_px
    room = canvas.surface.get_width() - 2 * margin
    words = f"{row.title}: {row.passes} of {row.swings}"
    letters = widest_letters(words, room, min(unit_px, 0.4 * height_px))
    top = canvas.put([words], letters, TEXT, margin, top_px + 0.1 * height_px, True)
    if row.values:
        small = widest_letters(row.values, room, min(0.74 * unit_px, 0.25 * height_px))
        canvas.put([row.values], small, QUIET, margin, top + 0.6 * small.cap_px, True)
