"""How finely the bay resolves a target: the truth bench's error, and what would be better."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from baycue.measures.figures import Figure
from baycue.plan.plan import Plan
from baycue.plan.target import Target, say_target

_CLEARLY_BETTER = 0.85
_QUARTILE = 0.6745
"""Of the normal distribution: half of all values lie within so many sigmas."""


@dataclass(frozen=True, slots=True)
class Resolution:
    """``figure``: the error used.  ``exact``: of this very moment, else of the measure elsewhere.

    ``better``: figures under other conditions with a clearly smaller error, best first.
    """

    figure: Figure
    exact: bool
    better: tuple[Figure, ...]

    @property
    def error(self) -> float:
        """Root mean square, in the measure's held unit."""
        return self.figure.rms


def resolution_of(
    target: Target, plan: Plan, fps: int, figures: Sequence[Figure]
) -> Resolution | None:
    """The figure that fits target, view, scale and frame rate best; None if there is none.

    Where several fit alike the largest error counts.
    """
    of_measure = [f for f in figures if f.measure == target.measure]
    here = [f for f in of_measure if f.view is plan.view]
    if not here:
        return None
    same = [f for f in here if asks_the_same(f, target)]

    def unlike(figure: Figure) -> tuple[bool, int, float]:
        rate = 0 if figure.fps == fps else 1 if figure.fps is None else 2
        return figure.scale != plan.scale.by.value, rate, -figure.rms

    used = min(same or here, key=unlike)
    others = (f for f in of_measure if f.asked == used.asked)
    better = [f for f in others if f.rms < _CLEARLY_BETTER * used.rms]
    return Resolution(used, bool(same), tuple(sorted(better, key=lambda f: f.rms)))


def asks_the_same(figure: Figure, target: Target) -> bool:
    """Whether a figure is of the target's moment, however either is worded."""
    words = {_moment(target.measure, say_target(target.measure, target.when))}
    written = target.model_copy(update={"name": None})
    words.add(_moment(target.measure, written.title))
    return _moment(target.measure, figure.asked) in words


def _moment(measure: str, title: str) -> str:
    """``at P6`` of ``knee past ankle at P6``."""
    return " ".join(title.replace(measure, "", 1).replace(",", " ").split())


def passes_in_the_middle(half_width: float, band: float, error: float) -> float:
    """How often a swing in the middle of a range is called a pass, 0 to 1.

    Its value is measured with a normal error, and passes if it is more than ``band`` sigmas
    inside the range: the normal integral.
    """
    room = half_width - band * error
    if room <= 0:
        return 0.0
    return math.erf(room / (error * math.sqrt(2))) if error else 1.0


def half_width_for_half(band: float, error: float) -> float:
    """The half width of the range whose middle passes every other time."""
    return error * (band + _QUARTILE)


def conditions_apart(used: Figure, better: Figure) -> Iterator[str]:
    """What to change to get from one figure's conditions to another's."""
    if better.view is not used.view:
        yield f"the camera {better.view.value}"
    if better.fps is not None and better.fps != used.fps:
        yield f"{better.fps} frames a second"
    if better.scale != used.scale:
        yield f"scale by {better.scale}"
