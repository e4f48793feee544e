"""When a smooth curve meets a level, and how sure that moment is."""

import numpy as np
from numpy.typing import NDArray

from baycue.swing.curve import Curve

FloatArray = NDArray[np.float64]


def first_crossing_s(
    curve: Curve, level: FloatArray, between_s: tuple[float, float], rising: bool
) -> float | None:
    """The first time within ``between_s`` at which the curve passes ``level`` (M,)."""
    inside = (curve.times_s >= between_s[0]) & (curve.times_s <= between_s[1])
    times, gap = curve.times_s[inside], (curve.values - level)[inside]
    if not rising:
        gap = -gap
    hits = np.flatnonzero((gap[:-1] < 0) & (gap[1:] >= 0))
    if not len(hits):
        return None
    k = int(hits[0])
    share = -gap[k] / (gap[k + 1] - gap[k])
    return float(times[k] + share * (times[k + 1] - times[k]))


def crossing_sigma_s(curve: Curve, time_s: float, level_sigma: float = 0.0) -> float:
    """Spread of a crossing: the value's spread over how fast the curve passes the level."""
    rate = max(abs(curve.rate_at(time_s)), 1e-9)
    return float(np.hypot(curve.sigma_at(time_s), level_sigma)) / rate


def lowest(curve: Curve, between_s: tuple[float, float]) -> tuple[float, float] | None:
    """Time and one-sigma of the curve's minimum: how long it stays within its own spread."""
    inside = (curve.times_s >= between_s[0]) & (curve.times_s <= between_s[1])
    if not inside.any():
        return None
    times, values = curve.times_s[inside], curve.values[inside]
    k = int(np.argmin(values))
    near = times[values <= values[k] + curve.sigma_at(float(times[k]))]
    return float(times[k]), max(float(np.ptp(near)) / 4, 1e-3)
