"""The big screen: the verdict by word, shape and colour, and each target's reason."""

from collections.abc import Iterator
from dataclasses import dataclass

import pygame

from baycue.cues.band import draw_band
from baycue.cues.canvas import Canvas, DrawnLine
from baycue.cues.letters import PREFERRED_ARCMIN, Letters, Viewing, letter_height_px, letters_of
from baycue.cues.palette import GROUND, QUIET, RULE
from baycue.cues.row import Row, draw_row, set_row
from baycue.cues.sizes import Columns, Sizes
from baycue.verdict.verdict import SwingVerdict

CAUTION = "Check that nobody stands within the club's reach. Facility rules come first."

_MARGIN = 0.6
_SMALL_PRINT = 0.36
_SETTINGS = (
    Sizes(title=1.1, value=1.5, margin=1.05, detail=0.5, band=3.4, stacked=True),
    Sizes(title=1.0, value=1.3, margin=1.0, detail=0.5, band=3.0, stacked=True),
    Sizes(title=0.8, value=1.05, margin=1.0, detail=0.4, band=2.3, stacked=True),
    Sizes(title=0.73, value=1.0, margin=0.73, detail=0.4, band=2.4),
    Sizes(title=0.73, value=0.8, margin=0.73, detail=0.36, band=2.0),
    Sizes(title=0.73, value=0.73, margin=0.73, detail=0.26, band=1.4),
)
"""From roomy to close: 1.0 is 22 arcmin, the preferred height, and 0.73 is 16, the least."""

_GROWTH = (2.6, 2.2, 1.9, 1.6, 1.35, 1.15, 1.0)
_SHRINK = 0.94


@dataclass(frozen=True, slots=True)
class _Page:
    """Everything measured before anything is drawn; heights in pixels."""

    unit_px: float
    sizes: Sizes
    columns: Columns
    rows: tuple[Row, ...]
    caution: list[str]
    small: Letters

    @property
    def band_px(self) -> float:
        return self.sizes.band * self.unit_px

    @property
    def footer_px(self) -> float:
        if not self.caution:
            return 0.0
        return self.small.height_px(len(self.caution)) + 1.8 * self.small.cap_px

    @property
    def taken_px(self) -> float:
        """Everything but the space around the rows."""
        return sum(row.height_px for row in self.rows) + self.band_px + self.footer_px


def draw_verdict(
    surface: pygame.Surface,
    verdict: SwingVerdict,
    viewing: Viewing | None = None,
    tally: str = "",
    with_caution: bool = True,
) -> tuple[DrawnLine, ...]:
    """Fill the surface with a swing's verdict; returns every line as drawn.

    Letters are sized for ``viewing`` so that the golfer reads the verdict and every target's
    name, value and margin from there.  Long words wrap.  Where it will not all fit, the coach's
    phrases go first, then all letters shrink together; nothing is ever cut off.  ``tally`` is a
    short line such as ``7 of 12 passed``.  Leave the caution out only where it is shown elsewhere.
    """
    caution = CAUTION if with_caution else ""
    page = _fitting_page(surface.get_size(), verdict, viewing or Viewing(), caution)
    canvas = Canvas(surface)
    surface.fill(GROUND)
    draw_band(canvas, verdict, tally, page.columns, page.band_px)
    _draw_rows(canvas, page)
    _draw_footer(canvas, page)
    return tuple(canvas.lines)


def letter_unit_px(size: tuple[int, int], viewing: Viewing) -> float:
    """The preferred cap height on a screen of (width, height) px, or less on an odd one."""
    width, height = size
    unit = letter_height_px(viewing.distance_m, PREFERRED_ARCMIN, viewing.screen_width_m, width)
    return min(unit, width / 18, height / 8)


def _fitting_page(
    size: tuple[int, int], verdict: SwingVerdict, viewing: Viewing, caution: str
) -> _Page:
    width, height = size
    unit = letter_unit_px(size, viewing)
    pages = (
        _page(verdict, sizes, unit, width, cue, caution)
        for sizes, cue in _settings()
        if sizes.least_height(len(verdict.targets)) * unit <= height
    )
    return next(page for page in pages if _fits(page, height))


def _settings() -> Iterator[tuple[Sizes, bool]]:
    """Sizes to try in turn, and whether to show the coach's phrases.

    The most legible come first, figures before names; where both are of the preferred height,
    a phrase is worth more than larger letters.
    """
    tries = [
        (sizes.scaled(factor), with_cue)
        for sizes in _SETTINGS
        for with_cue in (True, False)
        for factor in _GROWTH
    ]
    yield from sorted(tries, key=lambda each: (*each[0].want_of_legibility, not each[1]))
    sizes = _SETTINGS[-1]
    while True:
        sizes = sizes.scaled(_SHRINK)
        yield sizes, False


def _page(
    verdict: SwingVerdict, sizes: Sizes, unit: float, width: int, cue: bool, caution: str
) -> _Page:
    margin = _MARGIN * unit
    shape_width = 0.6 * sizes.band * unit
    columns = Columns(margin, shape_width, margin + shape_width + 0.5 * unit, width - margin)
    small = letters_of(max(round(min(_SMALL_PRINT, sizes.detail) * unit), 1))
    rows = tuple(set_row(answer, sizes, unit, columns, cue) for answer in verdict.targets)
    return _Page(unit, sizes, columns, rows, small.wrap(caution, width - 2 * margin), small)


def _fits(page: _Page, height: int) -> bool:
    least_gap = 0.8 * page.sizes.title * page.unit_px
    vanished = page.sizes.title * page.unit_px < 3
    return page.taken_px + least_gap * len(page.rows) <= height or vanished


def _draw_rows(canvas: Canvas, page: _Page) -> None:
    width, height = canvas.surface.get_size()
    gap = (height - page.taken_px) / max(len(page.rows), 1)
    top = page.band_px
    for index, row in enumerate(page.rows):
        if index:
            edge = round(page.columns.shape)
            canvas.surface.fill(RULE, (edge, round(top), width - 2 * edge, 2))
        draw_row(canvas, row, page.columns, top + (row.height_px + gap) / 2)
        top += row.height_px + gap


def _draw_footer(canvas: Canvas, page: _Page) -> None:
    if not page.caution:
        return
    width, height = canvas.surface.get_size()
    top = height - page.footer_px
    canvas.surface.fill(RULE, (0, round(top), width, 2))
    text_top = top + 0.9 * page.small.cap_px
    canvas.put(page.caution, page.small, QUIET, page.columns.shape, text_top, False)
