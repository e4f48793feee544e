"""The smooth curve against scipy's splines, dense linear algebra and simulated truth.

Values are of the size that angles in degrees have, which the curve's vague start is made for.
"""

import numpy as np
import pytest
from numpy.typing import NDArray
from scipy.interpolate import CubicHermiteSpline, make_smoothing_spline

from baycue.swing.curve import Curve, Readings, readings, smooth

FloatArray = NDArray[np.float64]


def uneven_times(count: int, rng: np.random.Generator, mean_step: float = 0.02) -> FloatArray:
    return np.asarray(np.cumsum(rng.uniform(0.2, 1.8, count) * mean_step))


def made_readings(seed: int, sigmas: FloatArray) -> Readings:
    rng = np.random.default_rng(seed)
    times = uneven_times(len(sigmas), rng)
    return readings(times, 100 * np.sin(7 * times) + rng.normal(0, sigmas), sigmas)


@pytest.mark.parametrize("noise_density", [3e3, 3e5, 3e7])
@pytest.mark.parametrize("seed", [1, 2])
def test_order_two_is_the_cubic_smoothing_spline(noise_density: float, seed: int) -> None:
    """Reference: scipy.interpolate.make_smoothing_spline with lam = sigma^2 / density.

    That the two are one is Wahba 1978, J R Stat Soc B 40:364 (from memory).
    """
    sigma = 3.0
    observed = made_readings(seed, np.full(40, sigma))
    lam = sigma**2 / noise_density
    spline = make_smoothing_spline(observed.times_s, observed.values, lam=lam)
    at = np.linspace(observed.times_s[0], observed.times_s[-1], 333)
    curve = smooth(observed, at, noise_density, order=2)
    assert curve.values == pytest.approx(spline(curve.times_s), abs=1e-5)
    slope = spline.derivative()(curve.times_s)
    assert curve.rates == pytest.approx(slope, abs=1e-5 * np.abs(slope).max())


def test_order_two_weighs_readings_by_their_sigmas() -> None:
    """Reference: scipy.interpolate.make_smoothing_spline with weights 1 / sigma^2."""
    sigmas = np.random.default_rng(3).uniform(0.5, 6.0, 50)
    observed = made_readings(4, sigmas)
    density = 2e5
    spline = make_smoothing_spline(
        observed.times_s, observed.values, w=1 / sigmas**2, lam=1 / density
    )
    curve = smooth(observed, observed.times_s, density, order=2)
    assert curve.values == pytest.approx(spline(curve.times_s), abs=1e-5)


@pytest.mark.parametrize("order", [2, 3])
def test_value_and_spread_are_the_posterior_of_an_integrated_wiener_process(order: int) -> None:
    """Reference: the same posterior by dense linear algebra.

    Kernel: integral of (s-u)^(m-1) (t-u)^(m-1) / (m-1)!^2 plus a vague polynomial
    (Wahba 1978; Rasmussen & Williams 2006 sec. 6.3; both from memory).
    """
    observed = made_readings(5, np.full(25, 2.0))
    at = np.linspace(observed.times_s[0] - 0.05, observed.times_s[-1] + 0.05, 60)
    density = 2e4 if order == 2 else 4e7
    curve = smooth(observed, at, density, order=order)
    values, sigmas = _dense_posterior(observed, curve.times_s, density, order)
    assert curve.values == pytest.approx(values, abs=1e-4)
    assert curve.sigmas == pytest.approx(sigmas, rel=1e-4)


def _dense_posterior(
    observed: Readings, at: FloatArray, density: float, order: int
) -> tuple[FloatArray, FloatArray]:
    # The process starts a moment before the first time, with a vague polynomial of its own.
    start = min(at.min(), observed.times_s.min())
    t, s = observed.times_s - start, at - start
    noise = np.diag(observed.sigmas**2)
    inner = density * _kernel(t, t, order) + noise
    cross, own = density * _kernel(s, t, order), density * _kernel(s, s, order)
    basis_t, basis_s = np.vander(t, order), np.vander(s, order)
    weighed = np.linalg.solve(inner, basis_t)
    information = basis_t.T @ weighed
    beta = np.linalg.solve(information, weighed.T @ observed.values)
    values = basis_s @ beta + cross @ np.linalg.solve(inner, observed.values - basis_t @ beta)
    left = basis_s - cross @ weighed
    cov = own - cross @ np.linalg.solve(inner, cross.T)
    cov = cov + left @ np.linalg.solve(information, left.T)
    return values, np.sqrt(np.diag(cov))


def _kernel(s: FloatArray, t: FloatArray, order: int) -> FloatArray:
    low = np.minimum(s[:, None], t)
    gap = np.abs(s[:, None] - t)
    if order == 2:
        return np.asarray(low**3 / 3 + gap * low**2 / 2)
    return np.asarray(low**5 / 20 + gap * low**4 / 8 + gap**2 * low**3 / 12)


def simulated(order: int, density: float, times: FloatArray, seed: int) -> FloatArray:
    """An order-fold integrated white noise at uneven times, by fine Euler steps."""
    rng = np.random.default_rng(seed)
    fine = np.linspace(0.0, times[-1], 20_000)
    h = fine[1] - fine[0]
    path = rng.normal(0, np.sqrt(density / h), len(fine))
    for _ in range(order):
        path = np.cumsum(path) * h
    start = rng.normal(0, 1) + rng.normal(0, 5) * fine
    return np.asarray(np.interp(times, fine, path + start))


@pytest.mark.parametrize("order", [2, 3])
def test_one_sigma_holds_the_truth_two_times_out_of_three(order: int) -> None:
    """68.3 % of a Gaussian lies within one sigma (any textbook); 62 to 74 % allowed here."""
    density, sigma, inside = 100.0, 0.05, []
    for seed in range(40):
        rng = np.random.default_rng(1000 + seed)
        times = uneven_times(121, rng)
        truth = simulated(order, density, times, seed)
        seen = slice(None, None, 3)
        noisy = truth[seen] + rng.normal(0, sigma, len(times[seen]))
        observed = readings(times[seen], noisy, np.full(len(noisy), sigma))
        curve = smooth(observed, times, density, order=order)
        inside.append(np.abs(curve.values - truth) < curve.sigmas)
    assert 0.62 < np.mean(inside) < 0.74


def with_gap() -> Readings:
    times = np.concatenate([np.arange(0, 0.5, 0.02), np.arange(0.8, 1.3, 0.02)])
    return readings(times, np.zeros(len(times)), np.full(len(times), 0.1))


@pytest.mark.parametrize("order", [2, 3])
def test_spread_grows_into_a_gap(order: int) -> None:
    at = np.linspace(0.48, 0.80, 33)
    curve = smooth(with_gap(), at, 400.0, order=order)
    spread = np.array([curve.sigma_at(t) for t in at])
    peak = int(np.argmax(spread))
    assert 10 < peak < 22
    assert np.all(np.diff(spread[: peak + 1]) > 0)
    assert np.all(np.diff(spread[peak:]) < 0)
    assert spread[peak] > 1.8 * curve.sigma_at(0.25)


def test_spread_is_less_than_a_readings_own_where_readings_are_many() -> None:
    curve = smooth(with_gap(), with_gap().times_s, 400.0)
    assert curve.sigma_at(0.25) < 0.1


def test_a_density_by_moment_is_that_density_where_it_is_the_same_throughout() -> None:
    observed = with_gap()
    one = smooth(observed, AT, 400.0)
    other = smooth(observed, AT, lambda times_s: np.full_like(times_s, 400.0))
    assert np.array_equal(one.values, other.values)
    assert np.array_equal(one.sigmas, other.sigmas)


def test_a_curve_is_stiff_where_little_is_added_and_free_where_much_is() -> None:
    observed = with_gap()
    free, stiff = smooth(observed, AT, 4e4), smooth(observed, AT, 4.0)
    mixed = smooth(observed, AT, lambda times_s: np.where(times_s < 0.5, 4.0, 4e4))
    assert mixed.sigma_at(0.1) == pytest.approx(stiff.sigma_at(0.1), rel=0.1)
    assert mixed.sigma_at(0.9) == pytest.approx(free.sigma_at(0.9), rel=0.1)
    assert free.sigma_at(0.1) > 1.5 * stiff.sigma_at(0.1)


def test_rates_read_exactly_give_hermites_cubic() -> None:
    """Reference: scipy.interpolate.CubicHermiteSpline.

    With value and rate exact at both ends, the least bent curve between is that cubic.
    """
    times, values, rates = np.array([0.0, 0.4, 1.0]), np.array([0.0, 1.0, -1.0]), [3.0, 0.0, 2.0]
    exact = np.full(3, 1e-5)
    observed = Readings(times, values, exact, np.array(rates), exact)
    at = np.linspace(0, 1, 51)
    curve = smooth(observed, at, 10.0, order=2)
    assert curve.values == pytest.approx(CubicHermiteSpline(times, values, rates)(at), abs=1e-3)


def test_a_rate_reading_narrows_the_spread_and_a_missing_one_does_nothing() -> None:
    plain = with_gap()
    last_before = int(np.flatnonzero(plain.times_s < 0.5)[-1])
    rates, sigmas = np.full(len(plain.times_s), np.nan), np.full(len(plain.times_s), np.nan)
    same = smooth(Readings(plain.times_s, plain.values, plain.sigmas, rates, sigmas), AT, 400.0)
    rates[last_before], sigmas[last_before] = 2.0, 0.01
    with_rate = smooth(
        Readings(plain.times_s, plain.values, plain.sigmas, rates, sigmas), AT, 400.0
    )
    without = smooth(plain, AT, 400.0)
    assert np.array_equal(same.values, without.values)
    assert with_rate.sigma_at(0.56) < 0.8 * without.sigma_at(0.56)
    assert with_rate.rate_at(float(plain.times_s[last_before])) == pytest.approx(2.0, abs=0.05)


AT = np.linspace(0.0, 1.28, 65)


def test_the_curve_is_evaluated_at_readings_and_asked_times_alike() -> None:
    curve = smooth(with_gap(), np.array([0.6001, -0.1]), 400.0)
    assert curve.times_s == pytest.approx(np.union1d(with_gap().times_s, [0.6001, -0.1]))


def test_values_between_knots_lie_on_straight_lines() -> None:
    curve = Curve(*(np.array(v) for v in ([0.0, 2.0], [1.0, 3.0], [4.0, 0.0], [0.5, 1.5])))
    assert (curve.value_at(0.5), curve.rate_at(0.5), curve.sigma_at(0.5)) == (1.5, 3.0, 0.75)
