"""Wilson's interval against Newcombe's printed table and statsmodels."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from statsmodels.stats.proportion import proportion_confint

from baycue.practice.wilson import fewest_trials, wilson_interval


@pytest.mark.parametrize(
    ("passes", "trials", "low", "high"),
    [(81, 263, 0.2553, 0.3662), (7, 10, 0.3968, 0.8922), (0, 20, 0.0, 0.1611)],
)
def test_the_interval_is_newcombes(passes: int, trials: int, low: float, high: float) -> None:
    # Newcombe 1998, Statistics in Medicine 17:857, table I, method 3 (81/263 and 0/20);
    # 7/10 recomputed with statsmodels.
    found = wilson_interval(passes, trials)
    assert (round(found.low, 4), round(found.high, 4)) == (low, high)


@given(st.integers(1, 2000), st.floats(0, 1), st.sampled_from([0.8, 0.9, 0.95, 0.99]))
def test_the_interval_is_that_of_statsmodels(trials: int, share: float, confidence: float) -> None:
    passes = round(share * trials)
    found = wilson_interval(passes, trials, confidence)
    theirs = proportion_confint(passes, trials, alpha=1 - confidence, method="wilson")
    assert (found.low, found.high) == pytest.approx(theirs, abs=1e-12)


@given(st.floats(0.01, 0.98), st.sampled_from([0.8, 0.9, 0.95, 0.99]))
def test_the_fewest_trials_are_just_enough(rate: float, confidence: float) -> None:
    fewest = fewest_trials(rate, confidence)
    assert wilson_interval(fewest, fewest, confidence).low > rate
    if fewest > 1:
        assert wilson_interval(fewest - 1, fewest - 1, confidence).low <= rate + 1e-12


@pytest.mark.parametrize(("passes", "trials"), [(1, 0), (-1, 5), (6, 5), (0, 0)])
def test_what_is_no_rate_is_refused(passes: int, trials: int) -> None:
    with pytest.raises(ValueError, match="is no rate"):
        wilson_interval(passes, trials)


@pytest.mark.parametrize("confidence", [0.0, 1.0, 95.0])
def test_a_confidence_is_a_share(confidence: float) -> None:
    with pytest.raises(ValueError, match="not between 0 and 1"):
        wilson_interval(1, 2, confidence)
