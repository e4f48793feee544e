"""When a smooth curve meets a level, and how sure that moment is."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.swing.curve import Curve

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Turn:
    """When a curve turns round, how long it stays near, and what noise makes of it, s."""

    time_s: float
    lasted_s: float
    noise_s: float


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


def crossing_sigma_s(
    curve: Curve, time_s: float, level_sigma: float = 0.0, times: float = 1.0
) -> float:
    """Spread of a crossing: the value's spread over how fast the curve passes the level.

    ``times``: how much larger the value's spread is than the curve has it.
    """
    rate = max(abs(curve.rate_at(time_s)), 1e-9)
    return float(np.hypot(times * curve.sigma_at(time_s), level_sigma)) / rate


def turned(curve: Curve, between_s: tuple[float, float], rise: float, share: float) -> Turn | None:
    """Where the curve turns round at its lowest, told by when it is ``rise`` above that.

    Near the turn itself a curve hardly moves and noise alone says where it is lowest.
    ``share``: so much of the time between the two moments lies before the turn.  None without
    the curve in ``between_s``; where it does not rise so far, the span's end stands for it.
    """
    inside = (curve.times_s >= between_s[0]) & (curve.times_s <= between_s[1])
    if not inside.any():
        return None
    times, above = curve.times_s[inside], curve.values[inside] - curve.values[inside].min() - rise
    k = int(np.argmin(above))
    before_s, after_s = _up(times[k::-1], above[k::-1]), _up(times[k:], above[k:])
    sigmas_s = (crossing_sigma_s(curve, at_s) for at_s in (before_s, after_s))
    parts = [(1 - share) * next(sigmas_s), share * next(sigmas_s)]
    lasted_s = after_s - before_s
    return Turn(before_s + share * lasted_s, lasted_s, float(np.linalg.norm(parts)))


def _up(times: FloatArray, above: FloatArray) -> float:
    """The first of the times, which go either way, at which ``above`` is up to 0; else the last."""
    hits = np.flatnonzero((above[:-1] < 0) & (above[1:] >= 0))
    if not len(hits):
        return float(times[-1])
    k = int(hits[0])
    return float(np.interp(0.0, above[k : k + 2], times[k : k + 2]))
