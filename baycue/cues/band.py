"""The band across the top: shape, verdict in large words, swing number."""

from baycue.cues.canvas import Canvas
from baycue.cues.letters import Letters, letters_of
from baycue.cues.palette import GROUND, OUTCOME
from baycue.cues.shapes import outcome_shape
from baycue.cues.sizes import Columns
from baycue.verdict.verdict import Outcome, SwingVerdict

_WORD_PITCH = 1.4
_LARGEST = {1: 0.56, 2: 0.29}
"""Cap height in band heights, by the number of lines."""


def headline(verdict: SwingVerdict) -> str:
    """The verdict in large words.

    A swing in which nothing that decides could be measured is not called "too close".
    """
    deciding = [answer for answer in verdict.targets if not answer.watch_only]
    if verdict.outcome is Outcome.TOO_CLOSE and not any(a.measurement for a in deciding):
        return "NOT MEASURED"
    return verdict.outcome.value.upper()


def draw_band(
    canvas: Canvas, verdict: SwingVerdict, tally: str, columns: Columns, height_px: float
) -> None:
    """Draw the band over the surface's whole width."""
    colour = OUTCOME[verdict.outcome]
    canvas.surface.fill(colour, (0, 0, canvas.surface.get_width(), round(height_px)))
    size = round(columns.shape_width)
    shape = outcome_shape(verdict.outcome, size, GROUND, colour)
    canvas.surface.blit(shape, (round(columns.shape), round((height_px - size) / 2)))
    count_px = _draw_count(canvas, verdict.swing_number, tally, columns.right, height_px)
    width = columns.right - count_px - 0.2 * height_px - columns.text
    lines, letters = fitted_words(headline(verdict), width, height_px)
    height = letters.cap_px * (1 + _WORD_PITCH * (len(lines) - 1))
    for index, line in enumerate(lines):
        top = (height_px - height) / 2 + index * _WORD_PITCH * letters.cap_px
        canvas.put([line], letters, GROUND, columns.text, top, True)


def fitted_words(words: str, width_px: float, height_px: float) -> tuple[list[str], Letters]:
    """The words in one line or two, whichever lets the letters be larger."""
    settings = [_fitted(lines, width_px, height_px) for lines in _splits(words)]
    return max(settings, key=lambda setting: (setting[1].cap_px, -_widest(*setting)))


def _splits(words: str) -> list[list[str]]:
    parts = words.split()
    halves = [[" ".join(parts[:i]), " ".join(parts[i:])] for i in range(1, len(parts))]
    return [[words], *halves]


def _fitted(lines: list[str], width_px: float, height_px: float) -> tuple[list[str], Letters]:
    return lines, _widest_letters(lines, width_px, round(_LARGEST[len(lines)] * height_px))


def widest_letters(words: str, width_px: float, cap_px: float) -> Letters:
    """Letters up to a height in which one line is no wider than ``width_px``."""
    return _widest_letters([words], width_px, round(cap_px))


def _widest_letters(lines: list[str], width_px: float, cap_px: int) -> Letters:
    shrink = min(1.0, width_px / _widest(lines, letters_of(cap_px)))
    letters = letters_of(max(int(cap_px * shrink), 1))
    while letters.cap_px > 1 and _widest(lines, letters) > width_px:
        letters = letters_of(letters.cap_px - 2)
    return letters


def _widest(lines: list[str], letters: Letters) -> int:
    return max(letters.width_px(line) for line in lines)


def _draw_count(
    canvas: Canvas, number: int, tally: str, right_px: float, height_px: float
) -> float:
    """The swing's number at the right; returns the width taken."""
    large, small = letters_of(round(0.24 * height_px)), letters_of(round(0.10 * height_px))
    lines = [("swing", small), (str(number), large), (tally, small)]
    lines = [(text, letters) for text, letters in lines if text]
    gap = 0.11 * height_px
    total = sum(letters.cap_px for _, letters in lines) + gap * (len(lines) - 1)
    top = (height_px - total) / 2
    for text, letters in lines:
        canvas.put([text], letters, GROUND, right_px, top, False, True)
        top += letters.cap_px + gap
    return max(letters.width_px(text) for text, letters in lines)
