"""Does something rise?  A straight line through a series, with an honest interval."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from baycue.pose.pose import FloatArray

_FEWEST = 3.0


@dataclass(frozen=True, slots=True)
class Slope:
    """Units an hour, with its 95 % interval; infinite where too little is known."""

    per_h: float
    low: float
    high: float


def slope(at_s: Sequence[float], values: Sequence[float]) -> Slope:
    """By least squares, of values evenly spaced in time.

    What is left of one value resembles what is left of its neighbour, so that they tell less than
    as many that are independent: their number is taken as ``n (1 - r) / (1 + r)`` with r the
    residuals' correlation from one to the next (Santer and others 2000, Journal of Geophysical
    Research 105:7337, equations 4 to 6).  ValueError for fewer than three values.
    """
    hours, above = np.asarray(at_s, float) / 3600, np.asarray(values, float)
    if len(hours) < _FEWEST or np.ptp(hours) == 0:
        raise ValueError(f"no line through {len(hours)} values")
    spread, above = hours - hours.mean(), above - above.mean()
    per_h = float(spread @ above / (spread @ spread))
    rest = above - per_h * spread
    free = independent(rest) - 2
    if free <= 0:
        return Slope(per_h, -np.inf, np.inf)
    sigma = float(np.sqrt(rest @ rest / free / (spread @ spread)))
    half = _t_975(free) * sigma
    return Slope(per_h, per_h - half, per_h + half)


def independent(rest: FloatArray) -> float:
    """How many independent values the residuals are worth; at most as many as there are."""
    total = float(rest @ rest)
    alike = max(float(rest[1:] @ rest[:-1]) / total, 0.0) if total > 0 else 0.0
    return len(rest) * (1 - alike) / (1 + alike)


def _t_975(degrees_of_freedom: float) -> float:
    from scipy.stats import t

    return float(t.ppf(0.975, degrees_of_freedom))


def in_words(found: Slope, negligible: float, unit: str) -> str:
    """Flat, rising, falling, or not known; ``negligible``: so much an hour is no matter.

    Flat is only said where the whole interval is negligible.
    """
    half, unit = found.high - found.per_h, unit or "of them"
    if -negligible < found.low and found.high < negligible:
        return "flat"
    if found.low > 0:
        return f"rising by {_said(found.per_h)} {unit} an hour, give or take {_said(half)}"
    if found.high < 0:
        return f"falling by {_said(-found.per_h)} {unit} an hour, give or take {_said(half)}"
    if not np.isfinite(half):
        return "not known: too few values"
    return f"not known: from {_said(found.low, '+')} to {_said(found.high, '+')} {unit} an hour"


def _said(value: float, sign: str = "") -> str:
    return f"{value:{sign}.0f}" if abs(value) >= 10 else f"{value:{sign}.2g}"
