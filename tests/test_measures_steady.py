"""A landmark that jumps onto somebody else is left out until it comes back."""

import numpy as np
import pytest

from baycue.measures.measurement import NotMeasuredError
from baycue.measures.steady import fit_steady, refuse_minority, refuse_walking, steady

TIMES_S = np.arange(0, 1, 1 / 30)
PATH_M = 0.03 * np.sin(2 * np.pi * TIMES_S)
FASTEST_M_S, SLACK_M = 1.0, 0.03


def jumped(frames: slice, by_m: float) -> np.ndarray:
    values = PATH_M.copy()
    values[frames] += by_m
    return values


def test_a_head_that_moves_as_heads_do_is_kept_whole() -> None:
    rng = np.random.default_rng(1)
    noisy = PATH_M + rng.normal(0, 0.002, len(PATH_M))
    assert steady(TIMES_S, noisy, FASTEST_M_S, SLACK_M).all()


@pytest.mark.parametrize("by_m", [-0.3, 0.2, 0.25])
def test_frames_on_somebody_else_are_left_out_and_the_rest_kept(by_m: float) -> None:
    kept = steady(TIMES_S, jumped(slice(10, 20), by_m), FASTEST_M_S, SLACK_M)
    assert np.array_equal(np.flatnonzero(~kept), np.arange(10, 20))


def test_the_value_beside_a_jump_is_as_without_it() -> None:
    values = jumped(slice(10, 12), 0.2)
    kept = steady(TIMES_S, values, FASTEST_M_S, SLACK_M)
    clean = fit_steady(TIMES_S, PATH_M, np.ones(30, dtype=bool), 10.5 / 30, 0.07, 1)
    found = fit_steady(TIMES_S, values, kept, 10.5 / 30, 0.07, 1)
    assert found.value == pytest.approx(clean.value, abs=0.01)


def test_a_body_lost_for_long_is_not_measured() -> None:
    values = jumped(slice(10, 20), 0.2)
    kept = steady(TIMES_S, values, FASTEST_M_S, SLACK_M)
    with pytest.raises(NotMeasuredError, match="was lost there"):
        fit_steady(TIMES_S, values, kept, 15 / 30, 0.07, 1)


def test_a_head_that_comes_near_in_height_alone_is_still_on_somebody_else() -> None:
    places = np.stack([np.zeros(30), PATH_M], axis=1)
    places[10:20] += [0.12, 0.02]
    kept = steady(TIMES_S, places, FASTEST_M_S, SLACK_M)
    assert np.array_equal(np.flatnonzero(~kept), np.arange(10, 20))
    assert steady(TIMES_S, places[:, 1], FASTEST_M_S, SLACK_M).all()


STILL_S = np.arange(8) / 30
NEAR_WALKER_M_S = 1.1


def test_a_head_that_walks_while_it_should_stand_is_not_measured() -> None:
    places = np.stack([NEAR_WALKER_M_S * STILL_S, np.zeros(8)], axis=1)
    with pytest.raises(NotMeasuredError, match="stand still at address"):
        refuse_walking(places)


def test_a_golfer_who_sways_a_little_at_the_ball_stands() -> None:
    refuse_walking(0.02 * np.sin(2 * np.pi * STILL_S))


def test_one_wild_frame_at_the_ball_does_no_harm_to_the_middle() -> None:
    places = np.zeros(8)
    places[5] = 0.4
    refuse_walking(places)


def test_where_most_frames_are_left_out_the_rest_may_be_the_wrong_ones() -> None:
    refuse_minority(np.array([3, 6]), np.array([6, 6]))
    with pytest.raises(NotMeasuredError, match="was lost there"):
        refuse_minority(np.array([6, 2]), np.array([6, 5]))
