"""The foot of the live screen: the stage by mark and word, what is wrong, and small print."""

from collections.abc import Sequence
from dataclasses import dataclass

from baycue.cues.band import widest_letters
from baycue.cues.canvas import Canvas
from baycue.cues.letters import Letters, letters_of
from baycue.cues.live_words import Strip
from baycue.cues.marks import COLOUR, mark_picture
from baycue.cues.palette import OUTCOME, PANEL, QUIET, RULE, TEXT, Colour
from baycue.live.view import Stage
from baycue.verdict.verdict import Outcome

_WORD, _SMALL = 0.74, 0.25
"""Cap heights in units of the preferred height; 0.73 is the least that can be read."""
_PAD = 0.26


@dataclass(frozen=True, slots=True)
class StripPlace:
    """Where the strip stands: ``top_px``, the unit of letters and the side margin, px."""

    top_px: float
    unit_px: float
    margin_px: float


def strip_height_px(unit_px: float, small_lines: int) -> float:
    """Of the words' line and so many lines of small print."""
    return unit_px * (_WORD + 3 * _PAD + (1.6 * small_lines - 0.3) * _SMALL)


def small_letters(unit_px: float) -> Letters:
    """The small print's letters."""
    return letters_of(max(round(_SMALL * unit_px), 1))


def small_print(told: Sequence[str], unit_px: float, width_px: float) -> list[str]:
    """Each text in as many lines as it needs."""
    letters = small_letters(unit_px)
    return [line for text in told for line in letters.wrap(text, width_px)]


def draw_strip(canvas: Canvas, strip: Strip, place: StripPlace, small: list[str]) -> None:
    """Draw it over the surface's whole width from ``top_px`` down."""
    width, height = canvas.surface.get_size()
    top, unit = place.top_px, place.unit_px
    canvas.surface.fill(PANEL, (0, round(top), width, height - round(top)))
    canvas.surface.fill(RULE, (0, round(top), width, 2))
    letters = letters_of(max(int(_WORD * unit + 0.99), 1))
    word_top = top + _PAD * unit
    left = _draw_stage(canvas, strip, letters, place, word_top)
    _draw_right(canvas, strip, letters, width - place.margin_px, left + unit, word_top)
    small_top = word_top + letters.cap_px + 1.3 * _PAD * unit
    fine = small_letters(unit)
    for number, line in enumerate(small):
        line_top = small_top + 1.6 * number * fine.cap_px
        canvas.put([line], fine, QUIET, place.margin_px, line_top, False)


def _draw_stage(
    canvas: Canvas, strip: Strip, letters: Letters, place: StripPlace, top_px: float
) -> float:
    """Mark and word at the left; returns where they end."""
    size = round(1.25 * letters.cap_px)
    mark = mark_picture(strip.stage, size, COLOUR[strip.stage])
    canvas.surface.blit(mark, (round(place.margin_px), round(top_px - 0.125 * letters.cap_px)))
    left = place.margin_px + size + 0.5 * letters.cap_px
    canvas.put([strip.stage_word], letters, TEXT, left, top_px, True)
    return left + letters.width_px(strip.stage_word)


def _draw_right(
    canvas: Canvas, strip: Strip, letters: Letters, right: float, left: float, top_px: float
) -> None:
    """What is wrong, or news, or the run of passes; made smaller where it is too long."""
    text, colour = _right(strip)
    if not text:
        return
    size = round(1.1 * letters.cap_px) if strip.alarm else 0
    chosen = widest_letters(text, right - left - 1.4 * size, letters.cap_px)
    lower = (letters.cap_px - chosen.cap_px) / 2
    canvas.put([text], chosen, colour, right, top_px + lower, True, True)
    if size:
        mark = mark_picture(Stage.OFFLINE, size, colour)
        place = right - chosen.width_px(text) - 1.4 * size
        canvas.surface.blit(mark, (round(place), round(top_px - 0.05 * letters.cap_px)))


def _right(strip: Strip) -> tuple[str, Colour]:
    if strip.alarm:
        told = f"{strip.alarm}. {strip.notice}" if strip.notice else strip.alarm
        return told, OUTCOME[Outcome.FAIL]
    return (strip.notice, TEXT) if strip.notice else (strip.run, OUTCOME[Outcome.PASS])
