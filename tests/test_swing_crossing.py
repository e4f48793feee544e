"""Crossings and turning points of exact curves."""

from dataclasses import replace

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.swing.crossing import crossing_sigma_s, first_crossing_s, turned
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


def test_a_spread_that_is_larger_than_the_curve_has_it_counts_as_often() -> None:
    assert crossing_sigma_s(line(4.0), 0.5, times=2.5) == pytest.approx(0.5 / 4.0)


def test_a_flat_curve_has_no_sure_crossing_and_no_division_by_zero() -> None:
    assert crossing_sigma_s(line(0.0), 0.5) > 1e6


def bottom(before: float, after: float, sigma: float = 0.1, power: float = 2.0) -> Curve:
    """Lowest at 0, bent so much on either side; the rate is that of its values."""
    t = np.linspace(-1, 1, 4001)
    values = np.where(t < 0, before, after) * np.abs(t) ** power
    return Curve(t, values, np.gradient(values, t), np.full_like(t, sigma))


def test_a_turn_as_slow_before_as_after_is_midway() -> None:
    found = turned(wave(), (0.0, 2.5), 0.5, share=0.5)
    assert found is not None
    assert found.time_s == pytest.approx(1.5, abs=1e-3)
    # The sine is within 0.5 of its least over 120 of its 360 degrees, which it takes 2 s for.
    assert found.lasted_s == pytest.approx(2 / 3, abs=2e-3)
    assert turned(wave(), (7.0, 8.0), 0.5, share=0.5) is None


@pytest.mark.parametrize("rise", [0.01, 0.04, 0.09])
def test_the_share_tells_a_lopsided_turn(rise: float) -> None:
    """Bent four times as much after, it comes up in half the time: two thirds lie before."""
    found = turned(bottom(1.0, 4.0), ALL_S, rise, share=2 / 3)
    assert found is not None
    assert found.time_s == pytest.approx(0.0, abs=1e-3)
    assert found.lasted_s == pytest.approx(1.5 * np.sqrt(rise), abs=1e-3)


def test_noise_near_the_turn_itself_does_not_move_it() -> None:
    quiet = bottom(1.0, 4.0)
    rng = np.random.default_rng(3)
    near = np.abs(quiet.times_s) < 0.1
    rough = replace(quiet, values=quiet.values + near * rng.uniform(0, 0.02, len(near)))
    one, other = (turned(c, ALL_S, 0.09, share=2 / 3) for c in (quiet, rough))
    assert one is not None
    assert other is not None
    assert other.time_s == pytest.approx(one.time_s, abs=2e-3)
    assert abs(rough.times_s[np.argmin(rough.values)]) > 5e-3


def test_a_flatter_or_noisier_bottom_is_less_sure() -> None:
    """What noise makes of both moments: the spread over the rate there, by plane geometry."""
    sure, flat, noisy = (
        turned(bottom(*p), ALL_S, 0.09, share=0.5)
        for p in ((9.0, 9.0, 0.1), (1.0, 1.0, 0.1), (9.0, 9.0, 0.3))
    )
    assert sure is not None
    assert flat is not None
    assert noisy is not None
    assert sure.noise_s == pytest.approx(np.hypot(0.5, 0.5) * 0.1 / (2 * 9.0 * 0.1), rel=0.02)
    assert flat.noise_s == pytest.approx(3 * sure.noise_s, rel=0.02)
    assert noisy.noise_s == pytest.approx(3 * sure.noise_s, rel=0.02)


def test_where_the_curve_does_not_rise_so_far_the_spans_end_stands_for_it() -> None:
    found = turned(bottom(9.0, 9.0), (-0.5, 0.05), 0.09, share=0.5)
    assert found is not None
    assert found.lasted_s == pytest.approx(0.15, abs=2e-3)
