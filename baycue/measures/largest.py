"""The largest of many noisy values, and what the noise adds to it.

Where a track is flat, the largest of its noisy values is one whose noise happens to be high.
How much that adds is told by drawing again from what was seen: independent normal values, one
for each stretch of time that shares its noise, whose largest is larger by about as much again
(the parametric bootstrap, Efron 1979, with the drawing done by integration).  What is drawn
about is first pulled together by as much as the noise had spread it (James and Stein 1961;
both from memory).  What is taken off for that is in doubt by as much.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.special import ndtr

FloatArray = NDArray[np.float64]

_STEPS = 400
_REACH_SIGMAS = 6.0


@dataclass(frozen=True, slots=True)
class Largest:
    """The largest value with the noise's share taken off, its one-sigma, and where it was."""

    value: float
    sigma: float
    index: int


def largest_of(
    times_s: FloatArray, values: FloatArray, sigmas: FloatArray, memory_s: float
) -> Largest:
    """The largest of (N,) values at increasing times.

    ``sigmas``: (N,) of their noise.  Values further apart than ``memory_s`` are independent.
    """
    index = int(np.argmax(values))
    peaks, spreads = _peaks(times_s, values, np.maximum(sigmas, np.median(sigmas)), memory_s)
    likely = _pulled_together(peaks, spreads)
    mean, spread = _moments(likely, spreads)
    added = mean - float(likely.max())
    return Largest(float(values[index]) - added, float(np.hypot(spread, added)), index)


def _peaks(
    times_s: FloatArray, values: FloatArray, sigmas: FloatArray, memory_s: float
) -> tuple[FloatArray, FloatArray]:
    """The largest value of each stretch of time that shares its noise, and its sigma.

    Stretches are counted from the largest of all, so that it is one stretch's and not two's.
    """
    index = int(np.argmax(values))
    stretch = np.round((times_s - times_s[index]) / memory_s).astype(int)
    of = [int(k[np.argmax(values[k])]) for s in np.unique(stretch) for k in [_where(stretch, s)]]
    return values[of], sigmas[of]


def _where(stretch: NDArray[np.int_], number: int) -> NDArray[np.intp]:
    return np.flatnonzero(stretch == number)


def _pulled_together(peaks: FloatArray, sigmas: FloatArray) -> FloatArray:
    spread = float(np.var(peaks, ddof=1)) if len(peaks) > 1 else 0.0
    share = max(1 - float(np.mean(sigmas**2)) / spread, 0.0) if spread > 0 else 1.0
    return np.asarray(peaks.mean() + share * (peaks - peaks.mean()))


def _moments(means: FloatArray, sigmas: FloatArray) -> tuple[float, float]:
    """Mean and standard deviation of the largest of independent normal values."""
    if not sigmas.max() > 0:
        return float(means.max()), 0.0
    spreads = np.maximum(sigmas, 1e-9 * sigmas.max())
    low = float((means - _REACH_SIGMAS * spreads).max())
    high = float((means + _REACH_SIGMAS * spreads).max())
    at = np.linspace(low, high, _STEPS)
    below = np.prod(ndtr((at[:, None] - means) / spreads), axis=1)
    shares, middles = np.diff(below, prepend=0.0), at - (at[1] - at[0]) / 2
    mean = float(shares @ middles / shares.sum())
    return mean, float(np.sqrt(max(shares @ (middles - mean) ** 2 / shares.sum(), 0.0)))
