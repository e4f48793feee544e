"""A landmark that jumps onto somebody else is left out until it comes back."""

import numpy as np
import pytest

from baycue.measures.measurement import NotMeasuredError
from baycue.measures.steady import fit_steady, steady

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
