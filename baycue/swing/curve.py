"""A smooth curve through noisy readings, with an honest spread between them.

The curve is the posterior mean of an integrated Wiener process: order 2 is the cubic
smoothing spline (Wahba 1978), order 3 lets acceleration drift, which suits a club that
is speeding up.  It is computed by a Kalman filter and a Rauch-Tung-Striebel smoother.
"""

from collections.abc import Callable
from dataclasses import dataclass
from math import factorial, isfinite

import numpy as np
from numpy.typing import NDArray
from scipy.interpolate import CubicHermiteSpline

FloatArray = NDArray[np.float64]
Density = Callable[[FloatArray], FloatArray]
"""A noise density, as in ``smooth``, at each of (M,) moments, s."""

_VAGUE_VARIANCE = 1e12


@dataclass(frozen=True, slots=True)
class Readings:
    """Values with one-sigma at strictly increasing times (all (N,), times in seconds).

    ``rates`` and ``rate_sigmas`` are the value's time derivative where it was read too;
    NaN where it was not.
    """

    times_s: FloatArray
    values: FloatArray
    sigmas: FloatArray
    rates: FloatArray
    rate_sigmas: FloatArray


@dataclass(frozen=True, slots=True)
class Curve:
    """The smoothed value, its rate and its one-sigma at each of ``times_s`` (all (M,))."""

    times_s: FloatArray
    values: FloatArray
    rates: FloatArray
    sigmas: FloatArray

    def value_at(self, time_s: float) -> float:
        """The value at a time, between knots by straight line."""
        return float(np.interp(time_s, self.times_s, self.values))

    def rate_at(self, time_s: float) -> float:
        """The rate at a time, between knots by straight line."""
        return float(np.interp(time_s, self.times_s, self.rates))

    def sigma_at(self, time_s: float) -> float:
        """The one-sigma of the value at a time."""
        return float(np.interp(time_s, self.times_s, self.sigmas))


def readings(times_s: FloatArray, values: FloatArray, sigmas: FloatArray) -> Readings:
    """Readings without rates."""
    none = np.full(len(times_s), np.nan)
    return Readings(times_s, values, sigmas, none, none)


def transitions(steps_s: FloatArray, order: int) -> FloatArray:
    """The (N, order, order) matrices that carry value, rate, ... over steps without noise."""
    moves = np.zeros((len(steps_s), order, order))
    for i in range(order):
        for j in range(i, order):
            moves[:, i, j] = steps_s ** (j - i) / factorial(j - i)
    return moves


def diffusions(steps_s: FloatArray, order: int) -> FloatArray:
    """Covariances (N, order, order) that unit white noise on the highest derivative adds."""
    added = np.empty((len(steps_s), order, order))
    for i in range(order):
        for j in range(order):
            a, b = order - 1 - i, order - 1 - j
            added[:, i, j] = steps_s ** (a + b + 1) / ((a + b + 1) * factorial(a) * factorial(b))
    return added


def densified(curve: Curve, at_s: FloatArray) -> Curve:
    """The curve at ``at_s`` (M,) within its times: Hermite's cubic through values and rates."""
    fitted = CubicHermiteSpline(curve.times_s, curve.values, curve.rates)
    spread = np.interp(at_s, curve.times_s, curve.sigmas)
    return Curve(at_s, fitted(at_s), fitted(at_s, 1), spread)


def smooth(
    observed: Readings, at_s: FloatArray, noise_density: float | Density, order: int = 3
) -> Curve:
    """Fit ``observed`` and evaluate the fit at ``at_s`` and at the observed times.

    ``noise_density``: variance that the highest derivative gains a second, always or by moment.
    """
    times = np.union1d(observed.times_s, at_s)
    means, covariances = _smooth_states(observed, times, noise_density, order)
    spread = np.sqrt(np.maximum(covariances[:, 0, 0], 0.0))
    return Curve(times, means[:, 0], means[:, 1], spread)


def _smooth_states(
    observed: Readings, times: FloatArray, noise_density: float | Density, order: int
) -> tuple[FloatArray, FloatArray]:
    count = len(times)
    filtered_m, filtered_p = np.zeros((count, order)), np.zeros((count, order, order))
    predicted_m, predicted_p = np.zeros((count, order)), np.zeros((count, order, order))
    steps = np.diff(times, prepend=times[0])
    moves, noise = transitions(steps, order), diffusions(steps, order)
    if callable(noise_density):
        noise *= noise_density(times - steps / 2)[:, None, None]
    else:
        noise *= noise_density
    index_of = {float(t): k for k, t in enumerate(observed.times_s)}
    mean, cov = np.zeros(order), np.eye(order) * _VAGUE_VARIANCE
    for k, time in enumerate(times.tolist()):
        move = moves[k]
        mean = move @ mean
        cov = move @ cov @ move.T + noise[k]
        predicted_m[k], predicted_p[k] = mean, cov
        seen = index_of.get(time)
        if seen is not None:
            mean, cov = _observe(mean, cov, observed, seen)
        filtered_m[k], filtered_p[k] = mean, cov
    return _backward(moves, filtered_m, filtered_p, predicted_m, predicted_p)


def _observe(
    mean: FloatArray, cov: FloatArray, observed: Readings, k: int
) -> tuple[FloatArray, FloatArray]:
    mean, cov = _update(mean, cov, 0, observed.values[k], observed.sigmas[k])
    if isfinite(observed.rates[k]):
        mean, cov = _update(mean, cov, 1, observed.rates[k], observed.rate_sigmas[k])
    return mean, cov


def _update(
    mean: FloatArray, cov: FloatArray, axis: int, value: float, sigma: float
) -> tuple[FloatArray, FloatArray]:
    # Joseph form: stays symmetric and positive under the vague start.
    gain = cov[:, axis] / (cov[axis, axis] + sigma**2)
    shrink = np.eye(len(mean))
    shrink[:, axis] -= gain
    cov = shrink @ cov @ shrink.T + sigma**2 * (gain[:, None] * gain)
    return mean + gain * (value - mean[axis]), cov


def _backward(
    moves: FloatArray,
    filtered_m: FloatArray,
    filtered_p: FloatArray,
    predicted_m: FloatArray,
    predicted_p: FloatArray,
) -> tuple[FloatArray, FloatArray]:
    means, covs = filtered_m.copy(), filtered_p.copy()
    back = np.linalg.solve(predicted_p[1:], moves[1:] @ filtered_p[:-1])
    for k in range(len(moves) - 2, -1, -1):
        gain = back[k].T
        means[k] += gain @ (means[k + 1] - predicted_m[k + 1])
        covs[k] += gain @ (covs[k + 1] - predicted_p[k + 1]) @ back[k]
    return means, covs
