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
    states = _smooth_states(observed, times, noise_density, order)
    spread = np.sqrt(np.maximum(states[:, 0, 0], 0.0))
    return Curve(times, states[:, 0, order], states[:, 1, order], spread)


def _smooth_states(
    observed: Readings, times: FloatArray, noise_density: float | Density, order: int
) -> FloatArray:
    """What is known in the end of value, rate, ... at each time: (N, order, order + 1).

    Each its covariance and, beside that, its mean, so that one product moves both.
    """
    steps = np.diff(times, prepend=times[0])
    moves, noise = transitions(steps, order), np.zeros((len(times), order, order + 1))
    density = noise_density(times - steps / 2) if callable(noise_density) else noise_density
    noise[:, :, :order] = diffusions(steps, order) * np.reshape(density, (-1, 1, 1))
    index_of = {float(t): k for k, t in enumerate(observed.times_s)}
    state = np.eye(order, order + 1) * _VAGUE_VARIANCE
    predicted, filtered = np.empty_like(noise), np.empty_like(noise)
    both = zip(times.tolist(), moves, _beside_one(moves.transpose(0, 2, 1)), strict=True)
    for k, (time, move, back) in enumerate(both):
        # Of matrices so small ``dot`` takes half the time of ``@``.
        state = move.dot(state).dot(back) + noise[k]
        predicted[k] = state
        seen = index_of.get(time)
        if seen is not None:
            state = _observe(state, observed, seen)
        filtered[k] = state
    return _backward(moves, filtered, predicted)


def _beside_one(matrices: FloatArray) -> FloatArray:
    """(N, order, order) matrices as they move a covariance and leave the mean beside it."""
    count, order = matrices.shape[:2]
    wider = np.zeros((count, order + 1, order + 1))
    wider[:, :order, :order] = matrices
    wider[:, order, order] = 1.0
    return wider


def _observe(state: FloatArray, observed: Readings, k: int) -> FloatArray:
    state = _update(state, 0, observed.values[k], observed.sigmas[k])
    if isfinite(observed.rates[k]):
        state = _update(state, 1, observed.rates[k], observed.rate_sigmas[k])
    return state


def _update(state: FloatArray, axis: int, value: float, sigma: float) -> FloatArray:
    known = state[axis].copy()
    known[-1] -= value
    gain = known[:-1] / (known[axis] + sigma**2)
    state = state - gain[:, None] * known
    # The same, without the rounding that a vague start brings.
    state[axis, :-1] = state[:, axis] = gain * sigma**2
    return state


def _backward(moves: FloatArray, filtered: FloatArray, predicted: FloatArray) -> FloatArray:
    known = filtered[:-1, :, :-1]
    back = np.asarray(np.linalg.solve(predicted[1:, :, :-1], moves[1:] @ known), np.float64)
    gains, wider = back.transpose(0, 2, 1), _beside_one(back)
    # A later state less what was expected of it, carried back; what does not depend on it at once.
    states = filtered.copy()
    states[:-1] -= gains @ predicted[1:] @ wider
    for k in range(len(gains) - 1, -1, -1):
        states[k] += gains[k].dot(states[k + 1]).dot(wider[k])
    return states
