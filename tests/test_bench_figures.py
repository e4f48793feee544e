"""Figures of hand-made records against values worked out by hand or by a library."""

import itertools
import math

import numpy as np
import pytest
from scipy.stats import norm

from baycue.bench.coach import ASKED, KNEE
from baycue.bench.events import EVENTS, event_shares, tolerance_frames
from baycue.bench.figures import MEASURES, TIMES, figures_of
from baycue.bench.goals import goals
from baycue.bench.slices import ALL_SLICES
from baycue.bench.statistics import coverage_of, errors_of, within_sigmas
from baycue.bench.verdicts import BOUNDS_A_SWING, verdicts_on
from baycue.swing.swing import SIGMAS_95, TIME_FREEDOM
from tests.bench_records import record, truth, unseen


def test_errors_worked_out_by_hand() -> None:
    errors = errors_of([1.0, -3.0, 5.0], missing=2)
    assert (errors.count, errors.missing) == (3, 2)
    assert errors.bias == pytest.approx(1.0)
    assert errors.rms == pytest.approx(math.sqrt(35 / 3))
    assert errors.median == 3.0
    assert errors.p95 == pytest.approx(4.8)  # nine tenths of the way from 3 to 5


def test_no_errors_give_no_figure_rather_than_a_good_one() -> None:
    assert math.isnan(errors_of([], missing=4).rms)
    assert math.isnan(coverage_of([], []).within_68)


@pytest.mark.parametrize("share", [0.68, 0.95])
def test_the_intervals_of_measures_are_the_normal_distribution_s(share: float) -> None:
    width = within_sigmas(share)
    assert norm.cdf(width) - norm.cdf(-width) == pytest.approx(share, abs=1e-9)


@pytest.mark.parametrize(("freedom", "times"), [(7, 2.36 / 1.08), (10, 2.23 / 1.05)])
def test_intervals_of_heavier_tails_are_the_guide_s(freedom: int, times: float) -> None:
    """JCGM 100:2008 (GUM), table G.2: t for 95 % over t for 68.27 % (from memory)."""
    assert within_sigmas(0.95, freedom) == pytest.approx(times, rel=0.006)


def test_the_program_states_the_interval_that_the_bench_scores() -> None:
    assert within_sigmas(0.95, TIME_FREEDOM) == pytest.approx(SIGMAS_95, abs=0.005)
    for quantity in TIMES:
        assert quantity.freedom == TIME_FREEDOM
    for quantity in MEASURES:
        assert math.isinf(quantity.freedom)


def test_sigmas_that_are_right_cover_as_often_as_they_say() -> None:
    rng = np.random.default_rng(3)
    sigmas = rng.uniform(1.0, 5.0, 20_000)
    right = coverage_of(list(sigmas * rng.standard_normal(20_000)), list(sigmas))
    assert right.within_68 == pytest.approx(0.68, abs=0.01)
    assert right.within_95 == pytest.approx(0.95, abs=0.005)


def test_heavier_tails_are_covered_as_often_as_is_said() -> None:
    errors = list(np.random.default_rng(4).standard_t(7, 20_000))
    sigmas = [1.0767] * 20_000  # holds 68.27 % of such a t (scipy)
    right = coverage_of(errors, sigmas, freedom=7)
    assert right.within_68 == pytest.approx(0.68, abs=0.01)
    assert right.within_95 == pytest.approx(0.95, abs=0.005)
    assert coverage_of(errors, sigmas).within_95 < right.within_95 - 0.01


def test_times_are_in_milliseconds_and_in_frames() -> None:
    figures = figures_of([record(0, late_s=0.010), record(1, late_s=-0.010, fps=120.0)])
    errors = figures.errors["all swings"]["P6"]
    assert errors.bias == pytest.approx(0.0, abs=1e-6)
    assert errors.rms == pytest.approx(10.0)
    assert figures.errors["120 fps"]["P6"].bias == pytest.approx(-10.0)
    assert figures.frame_errors["P6"].p95 == pytest.approx(1.2 * 0.95 + 0.3 * 0.05)


def test_measures_are_in_millimetres() -> None:
    figures = figures_of([record(0, off=0.006), record(1, off=0.002)])
    assert figures.errors["all swings"][KNEE].bias == pytest.approx(4.0)
    assert figures.coverage[KNEE].within_68 == 1.0


def test_a_swing_that_was_not_found_is_told_and_counts_as_missing() -> None:
    figures = figures_of([record(0), unseen(1)])
    assert figures.found_share == 0.5
    assert figures.refused == {1: "nobody is seen in it"}
    assert figures.errors["all swings"]["P6"].missing == 1
    assert figures.events.mean == 0.5
    share = next(goal for goal in goals(figures) if goal.name == "swings found")
    assert not share.met


def test_every_draw_falls_into_one_of_each_pair_of_slices() -> None:
    draws = [record(number).draw for number in range(60)]
    names = [part.name for part in ALL_SLICES]
    assert len(names) == len(set(names))
    for below, above in itertools.pairwise(ALL_SLICES):
        if " over " in above.name and " to " in below.name:
            assert all(below.holds(d) != above.holds(d) for d in draws), above.name


@pytest.mark.parametrize(("frames", "allowed"), [(20, 1), (44, 1), (46, 2), (64, 2), (128, 4)])
def test_the_published_tolerance(frames: int, allowed: int) -> None:
    """max(round(n / 30), 1): McNally et al. 2019, arXiv 1903.06528."""
    assert tolerance_frames(frames) == allowed


def test_events_a_frame_late_are_found_and_two_frames_late_are_not() -> None:
    assert event_shares([record(0, late_s=1 / 30)]).mean == pytest.approx(1.0)
    late = event_shares([record(0, late_s=2 / 30)])
    assert late.each == dict.fromkeys(EVENTS, 0.0)


def test_exact_values_with_no_sigma_are_always_called_and_right() -> None:
    verdicts = verdicts_on(ASKED[0], [record(0, sigma=0.0), record(1, sigma=0.0)])
    assert verdicts.answers == verdicts.called == 2 * BOUNDS_A_SWING
    assert verdicts.right_share == 1.0
    assert verdicts.clear_too_close_share == 0.0


def test_a_wrong_value_with_a_small_sigma_is_called_wrong() -> None:
    over = ASKED[0].bounds[1] - ASKED[0].truth(truth()) + 0.01
    verdicts = verdicts_on(ASKED[0], [record(0, off=over, sigma=1e-6)])
    truly_met = np.mean(_bounds(0) <= ASKED[0].truth(truth()))
    assert verdicts.right_share == pytest.approx(truly_met)
    assert verdicts.right_share < 1.0


def test_a_huge_sigma_calls_nothing() -> None:
    verdicts = verdicts_on(ASKED[0], [record(0, sigma=1.0)])
    assert verdicts.called == 0
    assert math.isnan(verdicts.right_share)
    assert verdicts.clear_too_close_share == 1.0


def _bounds(number: int) -> np.ndarray:
    return np.random.default_rng([1, number]).uniform(*ASKED[0].bounds, BOUNDS_A_SWING)
