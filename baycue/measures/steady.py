"""Frames in which a landmark goes on from where it was, not onto somebody else."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.measures.measurement import NotMeasuredError
from baycue.swing.local_fit import FittedValue, FittedValues, fit_at, fit_over

FloatArray = NDArray[np.float64]

_NEAR_S = 0.06
_LOST = "the body was lost there, as when somebody walks by behind"
_STANDS_M = 0.03
"""In the quarter of a second before the takeaway who walks goes 0.2 m and more, half of it in the
middle half.  On 69 swings with nobody there ears, shoulders, hips and knees went up to 9 mm."""
_LONGEST_S, _DRIFT_M_S = 0.05, 0.1
"""For longer nothing goes fastest; else time alone would bring in a landmark on somebody else."""


def steady(
    times_s: FloatArray, values_m: FloatArray, fastest_m_s: float, slack_m: float
) -> NDArray[np.bool_]:
    """Which of the (N,) values, or (N, D) places, the one before them allows, from the first on.

    The pose model now and then puts a head or a leg on somebody who walks by behind, from one
    frame to the next; no part of a golfer but the hands moves so fast.
    """
    kept = np.ones(len(values_m), dtype=bool)
    last = 0
    for k in range(1, len(values_m)):
        since_s = times_s[k] - times_s[last]
        beyond_s = max(since_s - _LONGEST_S, 0.0)
        most = slack_m + fastest_m_s * (since_s - beyond_s) + _DRIFT_M_S * beyond_s
        kept[k] = np.linalg.norm(values_m[k] - values_m[last]) <= most
        last = k if kept[k] else last
    return kept


@dataclass(frozen=True, slots=True)
class Pace:
    """How fast a value can go, a second, and how far it can jump from frame to frame."""

    fastest: float
    slack: float

    def steady(self, times_s: FloatArray, values: FloatArray) -> NDArray[np.bool_]:
        """Which of the (N,) values, or (N, D) places, a golfer can have gone through."""
        return steady(times_s, values, self.fastest, self.slack)


def fit_steady(
    times_s: FloatArray,
    values_m: FloatArray,
    kept: NDArray[np.bool_],
    at_s: float,
    half_width_s: float,
    degree: int,
) -> FittedValue:
    """``fit_at`` over the kept frames; NotMeasuredError if none is near ``at_s``."""
    _refuse_lost(times_s[kept], np.array([at_s]))
    return fit_at(times_s[kept], values_m[kept], at_s, half_width_s, degree)


def fit_steady_over(
    times_s: FloatArray,
    values_m: FloatArray,
    kept: NDArray[np.bool_],
    at_s: FloatArray,
    half_width_s: float,
    degree: int,
) -> FittedValues:
    """The same at each of ``at_s`` (M,)."""
    _refuse_lost(times_s[kept], at_s)
    return fit_over(times_s[kept], values_m[kept], at_s, half_width_s, degree)


def refuse_walking(places_m: FloatArray) -> None:
    """NotMeasuredError if (N,) values or (N, D) places at address are not those of who stands.

    By the middle half of them, for a few wild frames do the median no harm.
    """
    low, high = np.percentile(places_m, [25, 75], axis=0)
    if (high - low > _STANDS_M).any():
        raise NotMeasuredError(
            "the golfer was not seen to stand still at address, as when somebody walks by behind"
        )


def refuse_minority(kept: NDArray[np.int_], of: NDArray[np.int_]) -> None:
    """NotMeasuredError if at any of (M,) moments fewer than half of the frames near are kept."""
    if (2 * kept < of).any():
        raise NotMeasuredError(_LOST)


def _refuse_lost(kept_s: FloatArray, at_s: FloatArray) -> None:
    if (np.abs(kept_s - at_s[:, None]).min(axis=1) > _NEAR_S).any():
        raise NotMeasuredError(_LOST)
