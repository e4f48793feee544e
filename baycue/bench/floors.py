"""Floors under the figures of a short bench: what it reached once, with room for chance.

Set from the short bench of 27 November 2026 (16 swings of seed 11 at 30 frames a second, all
found): P6 median 0.7 ms, impact 1.4 ms, top 95th percentile 0.19 frames, knee RMS 8.3 mm and
99.6 % of its answers right, head RMS 5.9 mm.  Two days before: 15, 1.6 ms, 2.3 ms, 0.52 frames,
11.3 mm, 99.6 %, 5.5 mm.  With so few swings one wild error sets any 95th percentile, so most
floors are under medians.  A change that makes the program clearly worse falls below one.  They
are no goals: those are in ``goals``, and of more swings.
"""

from collections.abc import Callable
from dataclasses import dataclass

from baycue.bench.coach import HEAD, KNEE
from baycue.bench.figures import Figures
from baycue.bench.slices import EVERY

SHORT_SEED, SHORT_SWINGS = 11, 16


@dataclass(frozen=True, slots=True)
class Floor:
    """A figure must stay between ``low`` and ``high``."""

    name: str
    unit: str
    read: Callable[[Figures], float]
    low: float
    high: float


FLOORS = (
    Floor("swings found", "%", lambda f: 100 * f.found_share, 93.0, 100.0),
    Floor("P6, median", "ms", lambda f: f.errors[EVERY.name]["P6"].median, 0.0, 1.3),
    Floor("impact, median", "ms", lambda f: f.errors[EVERY.name]["impact"].median, 0.0, 2.8),
    Floor("top, 95th percentile", "frames", lambda f: f.frame_errors["top"].p95, 0.0, 0.6),
    Floor(f"{KNEE}, RMS", "mm", lambda f: f.errors[EVERY.name][KNEE].rms, 0.0, 12.0),
    Floor(f"{HEAD}, RMS", "mm", lambda f: f.errors[EVERY.name][HEAD].rms, 0.0, 8.0),
    Floor(f"{KNEE}, called right", "%", lambda f: 100 * f.verdicts[KNEE].right_share, 98.0, 100.0),
)


def fallen(figures: Figures, floors: tuple[Floor, ...]) -> tuple[str, ...]:
    """A line for each figure outside its floor's range, or that there is not (NaN)."""
    return tuple(
        f"{floor.name} is {floor.read(figures):.2f} {floor.unit}; "
        f"it must stay within {floor.low:g} to {floor.high:g}"
        for floor in floors
        if not floor.low <= floor.read(figures) <= floor.high
    )
