"""How far each measure was off on the truth bench: what ``figures.yaml`` says."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

import yaml
from pydantic import TypeAdapter

from baycue.measures.measurement import Unit
from baycue.plan.stance import View

_FILE = Path(__file__).with_name("figures.yaml")

MOST_OF_SPREAD, LEAST_WITHIN_TWO_SIGMAS = 0.75, 0.85
"""An error over three quarters of the true spread leaves less than half of a difference between
two golfers' values told; 95 in 100 should lie within two sigmas.  Both limits are ours."""
_ALIKE_SHARE = 0.1
"""Where the bench's golfers are as good as alike, what golfers differ by says nothing."""

_HEADING = """\
# How far each measure was off on the truth bench; figures.py says what the keys mean.
# Written by `baycue bench-measures --write-figures`; not to be edited by hand.
"""


@dataclass(frozen=True, slots=True)
class Figure:
    """How far off a measure was, over so many swings whose truth is known.

    ``asked``: when it was taken, as a target's title says it; empty for the whole swing.
    ``rms`` and ``bias`` are in the measure's held unit.  ``one_sigma`` and ``two_sigmas``: the
    share of swings whose truth lay within so many stated sigmas, 0 to 1.  ``fps``: the frame
    rate, or None if mixed; ``scale``: what told metres, in the plan's word.  ``missing``: swings
    on which it could not be taken.  ``true_spread``: how far true values differ from swing to
    swing, one standard deviation.  ``called`` and ``called_right``: with bounds drawn without
    regard to the swing, the share of answers that were called, and of those that were right (0 if
    none was called).
    """

    measure: str
    view: View
    asked: str
    swings: int
    rms: float
    bias: float
    one_sigma: float
    two_sigmas: float
    fps: int | None = None
    scale: str = "stature"
    missing: int = 0
    true_spread: float = 0.0
    called: float = 0.0
    called_right: float = 0.0

    @property
    def doubt(self) -> str:
        """Why the measure, taken so, is not to be trusted from one camera; empty if it is."""
        told_apart = self.true_spread > _ALIKE_SHARE * self.rms
        if told_apart and self.rms > MOST_OF_SPREAD * self.true_spread:
            return "on the truth bench it was off by about as much as golfers differ"
        if self.two_sigmas < LEAST_WITHIN_TWO_SIGMAS:
            return "on the truth bench it was too often further off than it said"
        return ""


@dataclass(frozen=True, slots=True)
class Figures:
    """All figures, and how they were made."""

    made: dict[str, str]
    figures: tuple[Figure, ...]


def read_figures(path: Path = _FILE) -> Figures:
    """The figures of a file; pydantic's ValidationError if it is not one."""
    known: Any = yaml.safe_load(path.read_text(encoding="utf-8"))
    return TypeAdapter(Figures).validate_python(known)


@cache
def _measured() -> Figures:
    return read_figures()


def figures_of(measure: str, view: View | None = None) -> tuple[Figure, ...]:
    """The figures of a measure, in the file's order; none if it was not measured yet."""
    return tuple(f for f in _measured().figures if f.measure == measure and view in (None, f.view))


def say_figure(measure: str, unit: Unit, view: View | None = None) -> str:
    """The measure's error in words: ``9.7 mm RMS at P6 (144 swings)``."""
    found = [f for f in figures_of(measure, view) if f.fps is None]
    if not found:
        return "not measured yet"
    return "; ".join(
        f"{_said(f.rms, unit)} RMS, {f.asked or 'of the swing'} ({f.swings} swings)" for f in found
    )


def doubt_of(measure: str, view: View | None = None) -> str:
    """Why a measure is not to be trusted from one camera, however it is taken; empty if it is."""
    doubts = [f.doubt for f in figures_of(measure, view) if f.fps is None]
    return doubts[0] if doubts and all(doubts) else ""


def write_figures(path: Path, figures: Figures) -> None:
    """Write a file that ``read_figures`` reads, over an older one."""
    known = TypeAdapter(Figures).dump_python(figures, mode="json")
    text = yaml.safe_dump(known, sort_keys=False, allow_unicode=True, width=100)
    path.write_text(f"{_HEADING}{text}", encoding="utf-8")


def _said(value: float, unit: Unit) -> str:
    if unit is Unit.METRE:
        return f"{1000 * value:.1f} mm"
    if unit is Unit.SECOND:
        return f"{1000 * value:.0f} ms"
    return f"{value:.1f} deg" if unit is Unit.DEGREE else f"{value:.2f}"
