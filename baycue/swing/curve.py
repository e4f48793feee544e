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


@dataclass(frozen=True, slots=True)
class _States:
    """Means (N, order) and covariances (N, order, order) at N moments."""

    means: FloatArray
    covariances: FloatArray


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
    steps = np.diff(times, prepend=times[0])
    moves, noise = transitions(steps, order), diffusions(steps, order)
    if callable(noise_density):
        noise *= noise_density(times - steps / 2)[:, None, None]
    else:
        noise *= noise_density
    index_of = {float(t): k for k, t in enumerate(observed.times_s)}
    mean, cov = np.zeros(order), np.eye(order) * _VAGUE_VARIANCE
    filtered_m, filtered_p, predicted_m, predicted_p = [], [], [], []
    for time, move, back, added in zip(
        times.tolist(), moves, moves.transpose(0, 2, 1), noise, strict=True
    ):
        # Of matrices so small ``dot`` takes half the time of ``@``.
        mean, cov = move.dot(mean), move.dot(cov).dot(back)
        cov += added
        predicted_m.append(mean)
        predicted_p.append(cov)
        seen = index_of.get(time)
        if seen is not None:
            mean, cov = _observe(mean, cov, observed, seen)
        filtered_m.append(mean)
        filtered_p.append(cov)
    filtered = _States(np.array(filtered_m), np.array(filtered_p))
    return _backward(moves, filtered, _States(np.array(predicted_m), np.array(predicted_p)))


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
    row, variance = cov[axis], sigma**2
    gain = row / (row[axis] + variance)
    cov = cov - gain[:, None] * row
    cov += (variance * gain - cov[:, axis])[:, None] * gain
    return mean + gain * (value - mean[axis]), cov


def _backward(
    moves: FloatArray, filtered: _States, predicted: _States
) -> tuple[FloatArray, FloatArray]:
    """What is known in the end of each state, from what was known by then and before it."""
    known_p = filtered.covariances[:-1]
    back = np.linalg.solve(predicted.covariances[1:], moves[1:] @ known_p)
    gains = back.transpose(0, 2, 1)
    start_m = filtered.means[:-1] - (gains @ predicted.means[1:, :, None])[..., 0]
    start_p = known_p - gains @ predicted.covariances[1:] @ back
    mean, cov = filtered.means[-1], filtered.covariances[-1]
    means, covs = [mean], [cov]
    for k in range(len(gains) - 1, -1, -1):
        gain = gains[k]
        mean = start_m[k] + gain.dot(mean)
        cov = start_p[k] + gain.dot(cov).dot(back[k])
        means.append(mean)
        covs.append(cov)
    return np.array(means[::-1]), np.array(covs[::-1])
