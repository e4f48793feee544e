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


@dataclass(frozen=True, slots=True)
class Figure:
    """How far off a measure was, over so many swings whose truth is known.

    ``asked``: when it was taken, as a target's title says it.  ``rms`` and ``bias`` are in the
    measure's held unit.  ``one_sigma`` and ``two_sigmas``: the share of swings whose truth lay
    within so many stated sigmas, 0 to 1.  ``fps``: the frame rate, or None if mixed;
    ``scale``: what told metres, in the plan's word.
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
    found = figures_of(measure, view)
    if not found:
        return "not measured yet"
    return "; ".join(f"{_said(f.rms, unit)} RMS, {f.asked} ({f.swings} swings)" for f in found)


def _said(value: float, unit: Unit) -> str:
    if unit is Unit.METRE:
        return f"{1000 * value:.1f} mm"
    if unit is Unit.SECOND:
        return f"{1000 * value:.0f} ms"
    return f"{value:.1f} deg" if unit is Unit.DEGREE else f"{value:.2f}"
