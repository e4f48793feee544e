"""What the project wants to reach, and whether these figures do."""

from collections.abc import Iterator
from dataclasses import dataclass

from baycue.bench.coach import HEAD, KNEE
from baycue.bench.figures import QUANTITIES, Figures
from baycue.bench.slices import DEMANDED, EVERY

P6_MS = {"30 fps": (4.0, 12.0), "60 fps": (2.0, 6.0), "120 fps": (1.5, 4.0)}
KNEE_RMS_MM, KNEE_BIAS_MM, HEAD_RMS_MM = 12.0, 4.0, 8.0
COVER_68, COVER_95 = (0.62, 0.74), (0.92, 0.98)
RIGHT_SHARE, CLEAR_TOO_CLOSE_SHARE = 0.99, 0.15


@dataclass(frozen=True, slots=True)
class Goal:
    """One goal: ``reached`` against ``low`` to ``high``, in ``unit``."""

    name: str
    unit: str
    reached: float
    low: float
    high: float

    @property
    def met(self) -> bool:
        """False too for a figure that there is not (NaN)."""
        return self.low <= self.reached <= self.high


def goals(figures: Figures) -> tuple[Goal, ...]:
    """Every goal that these figures can speak of."""
    share = _at_least("swings found", "%", 100 * figures.found_share, 100.0)
    return (
        share,
        *_p6(figures),
        *_frames(figures),
        *_knee(figures),
        _at_most(f"{HEAD}: RMS", "mm", figures.errors[EVERY.name][HEAD].rms, HEAD_RMS_MM),
        *_coverage(figures),
        *_verdicts(figures),
    )


def _p6(figures: Figures) -> Iterator[Goal]:
    for name, (median, p95) in P6_MS.items():
        if name in figures.errors:
            errors = figures.errors[name]["P6"]
            yield _at_most(f"P6 at {name}: median", "ms", errors.median, median)
            yield _at_most(f"P6 at {name}: 95th percentile", "ms", errors.p95, p95)


def _frames(figures: Figures) -> Iterator[Goal]:
    wanted = {"impact": 0.5, "top": 1.0, "P5": 1.0, "P2": 1.0, "P3": 1.0}
    for name, frames in wanted.items():
        p95 = figures.frame_errors[name].p95
        yield _at_most(f"{name}: 95th percentile", "frames", p95, frames)


def _knee(figures: Figures) -> Iterator[Goal]:
    for part in DEMANDED:
        if part.name in figures.errors:
            errors = figures.errors[part.name][KNEE]
            yield _at_most(f"{KNEE}, {part.name}: RMS", "mm", errors.rms, KNEE_RMS_MM)
            yield Goal(f"{KNEE}, {part.name}: bias", "mm", errors.bias, -KNEE_BIAS_MM, KNEE_BIAS_MM)


def _coverage(figures: Figures) -> Iterator[Goal]:
    for quantity in QUANTITIES:
        covered = figures.coverage[quantity.name]
        for said, reached, (low, high) in (
            ("68 %", covered.within_68, COVER_68),
            ("95 %", covered.within_95, COVER_95),
        ):
            yield Goal(
                f"{quantity.name}: true within {said}", "%", 100 * reached, 100 * low, 100 * high
            )


def _verdicts(figures: Figures) -> Iterator[Goal]:
    for name in (KNEE, HEAD):
        verdicts = figures.verdicts[name]
        yield _at_least(f"{name}: called right", "%", 100 * verdicts.right_share, 100 * RIGHT_SHARE)
        yield _at_most(
            f"{name}: too close at over 2 cm",
            "%",
            100 * verdicts.clear_too_close_share,
            100 * CLEAR_TOO_CLOSE_SHARE,
        )


def _at_most(name: str, unit: str, reached: float, high: float) -> Goal:
    return Goal(name, unit, reached, float("-inf"), high)


def _at_least(name: str, unit: str, reached: float, low: float) -> Goal:
    return Goal(name, unit, reached, low, float("inf"))
