"""The local fit against the Savitzky-Golay tables and scipy."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.signal import savgol_coeffs

from baycue.swing.local_fit import fit_at, fit_over, fit_weights

STEP_S = 1 / 30


def even_times(count: int, step_s: float = STEP_S) -> np.ndarray:
    return np.arange(count) * step_s


@pytest.mark.parametrize(
    "table",
    [np.array([-3, 12, 17, 12, -3]) / 35, np.array([-2, 3, 6, 7, 6, 3, -2]) / 21],
    ids=["five points", "seven points"],
)
def test_even_frames_give_the_published_smoothing_weights(table: np.ndarray) -> None:
    """Savitzky & Golay 1964, Anal Chem 36:1627, table I (quadratic)."""
    times = even_times(len(table))
    weights = fit_weights(times, float(times[len(times) // 2]), degree=2)
    assert weights[0] == pytest.approx(table, abs=1e-12)


@pytest.mark.parametrize("count", [5, 7, 9])
@pytest.mark.parametrize("degree", [2, 3])
@pytest.mark.parametrize("place", [0, 1, 2])
def test_even_frames_give_scipys_weights(count: int, degree: int, place: int) -> None:
    """Reference: scipy.signal.savgol_coeffs, value and first derivative, off-centre too."""
    times = even_times(count)
    weights = fit_weights(times, float(times[place]), degree)
    value = savgol_coeffs(count, degree, pos=place, use="dot")
    rate = savgol_coeffs(count, degree, deriv=1, delta=STEP_S, pos=place, use="dot")
    assert weights[0] == pytest.approx(value, abs=1e-9)
    assert weights[1] == pytest.approx(rate, abs=1e-7)


uneven = st.lists(st.floats(0.004, 0.06), min_size=12, max_size=30).map(
    lambda steps: np.cumsum(steps)
)
coefficient = st.floats(-10, 10)


@settings(deadline=None)
@given(uneven, coefficient, coefficient, coefficient, st.floats(0.1, 0.9))
def test_a_parabola_is_found_exactly_between_uneven_frames(
    times: np.ndarray, a: float, b: float, c: float, share: float
) -> None:
    at = float(times[0] + share * (times[-1] - times[0]))
    fitted = fit_at(times, a + b * times + c * times**2, at, half_width_s=0.07)
    assert fitted.value == pytest.approx(a + b * at + c * at**2, abs=1e-6)
    assert fitted.rate_per_s == pytest.approx(b + 2 * c * at, abs=1e-4)
    assert fitted.sigma == pytest.approx(0.0, abs=1e-6)


def test_only_frames_near_the_moment_count() -> None:
    times = even_times(60)
    values = np.where(np.abs(times - 1.0) <= 0.0701, 5.0, 1e6)
    assert fit_at(times, values, 1.0, half_width_s=0.07).value == pytest.approx(5.0)


def test_where_frames_are_few_the_nearest_are_used_however_far() -> None:
    times = np.array([0.0, 0.2, 0.4, 0.6, 0.8])
    fitted = fit_at(times, 3 * times, 0.5, half_width_s=0.01)
    assert fitted.value == pytest.approx(1.5)
    assert fitted.rate_per_s == pytest.approx(3.0)


def test_sigma_is_what_the_fit_is_wrong_by() -> None:
    rng = np.random.default_rng(7)
    times, at = even_times(40, 1 / 120), 0.163
    truth = 2 - 3 * at + 4 * at**2
    fits = [
        fit_at(times, 2 - 3 * times + 4 * times**2 + rng.normal(0, 0.1, 40), at, 0.07)
        for _ in range(400)
    ]
    wrong_by = np.std([f.value - truth for f in fits])
    told = np.sqrt(np.mean([f.sigma**2 for f in fits]))
    assert wrong_by / told == pytest.approx(1.0, abs=0.12)


@pytest.mark.parametrize("degree", [1, 2])
@pytest.mark.parametrize("fps", [24.0, 60.0])
def test_many_moments_at_once_are_as_one_by_one(degree: int, fps: float) -> None:
    """Uneven frames, moments at the ends too, where windows are short."""
    rng = np.random.default_rng(4)
    times = np.sort(np.arange(0, 1, 1 / fps) + rng.uniform(0, 0.3 / fps, round(fps)))
    values, moments = rng.normal(size=len(times)), np.linspace(-0.05, 1.05, 40)
    together = fit_over(times, values, moments, 0.07, degree)
    for k, moment in enumerate(moments):
        alone = fit_at(times, values, float(moment), 0.07, degree)
        assert together.values[k] == pytest.approx(alone.value, abs=1e-8)
        assert together.rates[k] == pytest.approx(alone.rate_per_s, abs=1e-6)
        assert together.sigmas[k] == pytest.approx(alone.sigma, abs=1e-8)
