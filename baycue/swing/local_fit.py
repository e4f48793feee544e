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


@dataclass(frozen=True, slots=True)
class FittedValues:
    """The same at many moments: values, rates a second and one-sigmas, (M,) each."""

    values: FloatArray
    rates: FloatArray
    sigmas: FloatArray


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


def fit_over(
    times_s: FloatArray, values: FloatArray, at_s: FloatArray, half_width_s: float, degree: int
) -> FittedValues:
    """``fit_at`` at each of ``at_s`` (M,), all at once."""
    picked, counts = _picked(np.abs(times_s - at_s[:, None]), half_width_s, degree + 2)
    here = np.arange(picked.shape[1]) < counts[:, None]
    off = times_s[picked] - at_s[:, None]
    # A row of zeros asks for nothing, so that windows of different lengths go together.
    design = here[..., None] * off[..., None] ** np.arange(degree + 1)
    observed = (here * values[picked])[..., None]
    solve = np.linalg.pinv(design)
    factors = solve @ observed
    residual = (observed - design @ factors)[..., 0]
    freedom = np.maximum(counts - degree - 1, 1)
    scatter = np.sqrt((residual**2).sum(axis=1) / freedom)
    sigmas = scatter * np.linalg.norm(solve[:, 0], axis=1)
    return FittedValues(factors[:, 0, 0], factors[:, 1, 0], sigmas)


def _picked(
    away_s: FloatArray, half_width_s: float, fewest: int
) -> tuple[NDArray[np.intp], NDArray[np.intp]]:
    """For each of M rows the places of those near enough, first, and how many these are."""
    nearest = np.argsort(away_s, axis=1)[:, :fewest]
    near = away_s <= half_width_s
    np.put_along_axis(near, nearest, True, axis=1)
    counts = near.sum(axis=1)
    return np.argsort(~near, axis=1, kind="stable")[:, : counts.max()], counts
