"""A value between frames: a low polynomial through the frames around a moment.

With evenly spaced frames and the moment on a frame this is the Savitzky-Golay smoother
(Savitzky and Golay 1964); here frames and moment may lie anywhere.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class FittedValue:
    """The fitted value, its rate a second, and the one-sigma that the residuals give it."""

    value: float
    rate_per_s: float
    sigma: float


def fit_weights(times_s: FloatArray, at_s: float, degree: int) -> FloatArray:
    """The (2, N) weights that turn values into the fitted value and rate at ``at_s``."""
    return _solver(times_s, at_s, degree)[1][:2]


def _solver(times_s: FloatArray, at_s: float, degree: int) -> tuple[FloatArray, FloatArray]:
    """The (N, degree + 1) powers of time from ``at_s``, and what solves for their factors."""
    design = np.vander(times_s - at_s, degree + 1, increasing=True)
    return design, np.asarray(np.linalg.pinv(design))


def fit_at(
    times_s: FloatArray, values: FloatArray, at_s: float, half_width_s: float, degree: int = 2
) -> FittedValue:
    """Fit the frames within ``half_width_s`` of ``at_s``, at least ``degree`` + 2 of them."""
    nearest = np.argsort(np.abs(times_s - at_s))[: degree + 2]
    picked = np.union1d(np.flatnonzero(np.abs(times_s - at_s) <= half_width_s), nearest)
    times, observed = times_s[picked], values[picked]
    design, solve = _solver(times, at_s, degree)
    weights = solve[:2]
    value, rate = weights @ observed
    residual = observed - design @ (solve @ observed)
    freedom = max(len(times) - degree - 1, 1)
    scatter = float(np.sqrt((residual**2).sum() / freedom))
    return FittedValue(float(value), float(rate), scatter * float(np.linalg.norm(weights[0])))
