"""Smooth curves through chosen values."""

from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicHermiteSpline, PchipInterpolator
from scipy.optimize import root

FloatArray = NDArray[np.float64]

REST_S = 0.2


class Curve:
    """A once-differentiable curve through (time, value) pairs, held flat beyond the ends.

    It never overshoots between two values (monotone cubic, Fritsch & Carlson 1980), so a
    joint goes where it is told and no further.  Values may be scalars or (N,) vectors.
    """

    def __init__(self, times_s: Sequence[float], values: Sequence[float] | FloatArray) -> None:
        self._ends = times_s[0], times_s[-1]
        self._inner = PchipInterpolator(np.asarray(times_s), np.asarray(values, dtype=np.float64))

    def __call__(self, time_s: float) -> FloatArray:
        """The value (N,) at a time, s."""
        return np.asarray(self._inner(min(max(time_s, self._ends[0]), self._ends[1])))

    def scalar(self, time_s: float) -> float:
        """The value at a time, s, of a scalar curve."""
        return float(self(time_s))


def resting_curve(times_s: Sequence[float], values: Sequence[float] | FloatArray) -> Curve:
    """A ``Curve`` that starts and ends at rest."""
    rows = np.asarray(values, dtype=np.float64)
    times = [times_s[0] - REST_S, *times_s, times_s[-1] + REST_S]
    return Curve(times, np.concatenate([rows[:1], rows, rows[-1:]]))


class Handover:
    """A curve that takes over a moving value: value and rate at the start, rest at the end.

    Between, it passes ``via`` points at their own rates (Catmull-Rom).
    """

    def __init__(
        self, times_s: Sequence[float], values: FloatArray, start_rate: FloatArray
    ) -> None:
        times, points = np.asarray(times_s), np.asarray(values, dtype=np.float64)
        rates = np.zeros_like(points)
        rates[0] = start_rate
        for i in range(1, len(times) - 1):
            rates[i] = (points[i + 1] - points[i - 1]) / (times[i + 1] - times[i - 1])
        self._ends = times_s[0], times_s[-1]
        self._inner = CubicHermiteSpline(times, points, rates)

    def __call__(self, time_s: float) -> FloatArray:
        """The value at a time, s; held at the ends."""
        return np.asarray(self._inner(min(max(time_s, self._ends[0]), self._ends[1])))


def minimum_jerk(share: float) -> float:
    """0 to 1 with zero rate and acceleration at both ends (Flash & Hogan 1985, from memory)."""
    share = min(max(share, 0.0), 1.0)
    return share**3 * (10 - 15 * share + 6 * share**2)


def solve(
    miss: Callable[[FloatArray], FloatArray], start: Sequence[float], what: str
) -> FloatArray:
    """The (N,) values at which ``miss`` is zero, to within a nanometre or nanodegree.

    Raises ValueError, beginning with ``what``, if there are none near ``start``.
    """
    found = root(miss, np.asarray(start, dtype=np.float64), tol=1e-11)
    left = float(np.abs(miss(found.x)).max())
    if left > 1e-9:
        raise ValueError(f"{what}: {left:.2g} left over")
    return np.asarray(found.x)
