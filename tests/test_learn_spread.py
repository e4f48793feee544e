"""Prediction limits against a printed table and a textbook's example."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.learn.spread import Spread, spread_of

# Student's t, as printed at the back of any statistics textbook (from memory): degrees of freedom,
# and the quantiles at 0.90, 0.95 and 0.975.
T_TABLE = [
    (2, 1.886, 2.920, 4.303),
    (3, 1.638, 2.353, 3.182),
    (4, 1.533, 2.132, 2.776),
    (9, 1.383, 1.833, 2.262),
    (21, 1.323, 1.721, 2.080),
    (30, 1.310, 1.697, 2.042),
]


def unit_spread(count: int) -> Spread:
    """Such that a limit is the quantile itself times sqrt(1 + 1/n)."""
    return Spread(count, 0.0, 1.0, -1.0, 1.0)


@pytest.mark.parametrize(("freedom", "at_90", "at_95", "at_975"), T_TABLE)
def test_limits_are_the_table_s_quantiles(
    freedom: int, at_90: float, at_95: float, at_975: float
) -> None:
    count = freedom + 1
    root = (1 + 1 / count) ** 0.5
    assert unit_spread(count).limit_above(0.90) / root == pytest.approx(at_90, abs=5e-4)
    assert unit_spread(count).limit_below(0.95) / root == pytest.approx(-at_95, abs=5e-4)
    low, high = unit_spread(count).limits(0.95)
    assert (low / root, high / root) == pytest.approx((-at_975, at_975), abs=5e-4)


def test_a_textbook_s_prediction_interval() -> None:
    """Montgomery and Runger's alloy adhesion: n 22, mean 13.71, s 3.55, 95 %: 6.16 to 21.26 MPa.

    Their figures from memory.
    """
    low, high = Spread(22, 13.71, 3.55, 7.5, 19.8).limits(0.95)
    assert (round(low, 2), round(high, 2)) == (6.16, 21.26)


def test_the_spread_is_that_of_a_sample() -> None:
    """2 4 4 4 5 5 7 9: mean 5, and 32 / 7 for the variance with n - 1."""
    spread = spread_of([2, 4, 4, 4, 5, 5, 7, 9])
    assert spread is not None
    assert (spread.count, spread.mean, spread.least, spread.largest) == (8, 5, 2, 9)
    assert spread.deviation**2 == pytest.approx(32 / 7)


def test_nothing_has_no_spread_and_two_have_no_limits() -> None:
    assert spread_of([]) is None
    two = spread_of([1.0, 2.0])
    assert two is not None
    with pytest.raises(ValueError, match="2 swings; 3 are the least"):
        two.limit_below(0.9)


@pytest.mark.parametrize("count", [3, 5, 12])
def test_the_next_swing_lies_inside_as_often_as_promised(count: int) -> None:
    """On normal values drawn at random, 4000 times; three binomial sigmas either side."""
    rng = np.random.default_rng(count)
    share, rounds, inside = 0.9, 4000, 0
    for values in rng.normal(3.0, 2.0, (rounds, count + 1)):
        spread = spread_of(list(values[:-1]))
        assert spread is not None
        inside += spread.limit_below(share) <= values[-1]
    assert inside / rounds == pytest.approx(share, abs=3 * (share * (1 - share) / rounds) ** 0.5)


@given(st.lists(st.floats(-1e3, 1e3), min_size=3, max_size=20), st.floats(0.5, 0.99))
def test_limits_enclose_the_mean_and_two_sides_are_wider(values: list[float], share: float) -> None:
    spread = spread_of(values)
    assert spread is not None
    low, high = spread.limits(share)
    assert low <= spread.limit_below(share) <= spread.mean <= spread.limit_above(share) <= high
