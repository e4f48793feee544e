"""Crossings and turning points of exact curves."""

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.swing.crossing import crossing_sigma_s, first_crossing_s, lowest
from baycue.swing.curve import Curve

FloatArray = NDArray[np.float64]
ALL_S = (-np.inf, np.inf)


def line(slope: float, sigma: float = 0.2) -> Curve:
    times = np.arange(0.0, 1.0001, 0.01)
    return Curve(times, slope * (times - 0.4567), np.full_like(times, slope), times * 0 + sigma)


def wave() -> Curve:
    times = np.linspace(0.0, 4.0, 4001)
    angle = np.pi * times
    return Curve(times, np.sin(angle), np.pi * np.cos(angle), times * 0 + 0.05)


def level(curve: Curve, value: float = 0.0) -> FloatArray:
    return np.full_like(curve.values, value)


@pytest.mark.parametrize("slope", [3.0, 0.001, 4000.0])
def test_a_line_crosses_where_it_does(slope: float) -> None:
    rising, falling = line(slope), line(-slope)
    assert first_crossing_s(rising, level(rising), ALL_S, rising=True) == pytest.approx(0.4567)
    assert first_crossing_s(falling, level(falling), ALL_S, rising=False) == pytest.approx(0.4567)


def test_a_crossing_the_other_way_does_not_count() -> None:
    assert first_crossing_s(line(3.0), level(line(3.0)), ALL_S, rising=False) is None
    assert first_crossing_s(line(-3.0), level(line(-3.0)), ALL_S, rising=True) is None


def test_a_moving_level_is_met_where_it_is_then() -> None:
    curve = line(2.0)
    moving = curve.times_s - 0.9
    met = first_crossing_s(curve, moving, ALL_S, rising=True)
    assert met == pytest.approx(2 * 0.4567 - 0.9, abs=1e-9)


def test_the_first_of_several_within_the_span_is_told() -> None:
    curve = wave()
    assert first_crossing_s(curve, level(curve), (0.5, 4.0), rising=True) == pytest.approx(2.0)
    assert first_crossing_s(curve, level(curve), (0.5, 4.0), rising=False) == pytest.approx(1.0)
    assert first_crossing_s(curve, level(curve), (1.5, 4.0), rising=False) == pytest.approx(3.0)


def test_no_crossing_in_an_empty_span_or_beyond_the_curve() -> None:
    curve = wave()
    assert first_crossing_s(curve, level(curve), (7.0, 8.0), rising=True) is None
    assert first_crossing_s(curve, level(curve), (2.5, 2.6), rising=True) is None
    assert first_crossing_s(curve, level(curve, 2.0), ALL_S, rising=True) is None


def test_a_crossings_spread_is_the_curves_over_its_rate() -> None:
    assert crossing_sigma_s(line(4.0), 0.5) == pytest.approx(0.2 / 4.0)
    assert crossing_sigma_s(line(-4.0, sigma=0.3), 0.5, level_sigma=0.4) == pytest.approx(0.125)


def test_a_flat_curve_has_no_sure_crossing_and_no_division_by_zero() -> None:
    assert crossing_sigma_s(line(0.0), 0.5) > 1e6


def test_the_lowest_point_is_found_within_the_span() -> None:
    found = lowest(wave(), (0.0, 2.5))
    assert found is not None
    assert found[0] == pytest.approx(1.5, abs=1e-3)
    assert lowest(wave(), (7.0, 8.0)) is None


def test_a_flatter_or_noisier_bottom_is_less_sure() -> None:
    def parabola(bend: float, sigma: float) -> Curve:
        t = np.linspace(-1, 1, 2001)
        return Curve(t, bend * t**2, 2 * bend * t, np.full_like(t, sigma))

    sure, flat, noisy = (lowest(parabola(*p), ALL_S) for p in ((9.0, 0.1), (1.0, 0.1), (9.0, 0.9)))
    assert sure is not None
    assert flat is not None
    assert noisy is not None
    assert flat[1] == pytest.approx(3 * sure[1], rel=0.05)
    assert noisy[1] == pytest.approx(3 * sure[1], rel=0.05)


def test_a_turning_points_spread_is_never_nothing() -> None:
    t = np.linspace(-1, 1, 201)
    sharp = lowest(Curve(t, np.abs(t) * 1e6, t, t * 0), ALL_S)
    assert sharp is not None
    assert sharp[1] > 0
