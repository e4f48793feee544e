"""Values taken on swings, and which measures tell good from poor."""

from dataclasses import replace

import pytest

from baycue.learn.finding import compared, findings, sample_of
from baycue.swing.swing import CheckpointName, Swing
from tests.canned_evidence import Filmed, evidence_of
from tests.learnt_samples import asked, knee, sample
from tests.stick_golfer import StickGolfer


def golfer(knee_m: float) -> Filmed:
    return Filmed(golfer=StickGolfer(knee_m=lambda _: knee_m))


def test_a_value_is_what_scoring_would_measure() -> None:
    what, swing = asked("knee past ankle"), evidence_of(golfer(0.04))
    taken = what.measure.take(swing, what.target.when)
    found = sample_of([swing], what)
    assert (found.values, found.sigmas, found.missing) == ((taken.value,), (taken.sigma,), 0)


def test_a_swing_without_the_checkpoint_is_counted_as_missing() -> None:
    whole = evidence_of(golfer(0.04))
    kept = [c for c in whole.swing.checkpoints if c.name is not CheckpointName.P5]
    without = replace(whole, swing=Swing(2, tuple(kept)))
    found = sample_of([whole, without], asked("knee past ankle"))
    assert (len(found.values), found.missing) == (1, 1)


def test_the_measure_that_was_moved_is_found_first() -> None:
    """Ten invented golfers who differ in the knee and in nothing else."""
    good = [evidence_of(golfer(0.05 + 0.002 * k)) for k in range(5)]
    poor = [evidence_of(golfer(0.01 + 0.002 * k)) for k in range(5)]
    first, other = findings([asked("tempo"), asked("knee past ankle")], good, poor)
    assert first.asked.target.measure == "knee past ankle"
    assert first.separates
    assert first.separation is not None
    assert first.separation.good_is_higher
    assert first.adjusted_p == pytest.approx(2 * 2 / 252)
    assert other.separation is not None
    assert (other.separation.strength, other.separates) == (0.0, False)


def test_a_measure_that_no_poor_swing_shows_is_not_compared_nor_counted() -> None:
    alone, both = compared(
        [
            (asked("knee past ankle"), sample(1, 2, 3), sample(missing=2)),
            (asked("tempo"), sample(3, 4, 5), sample(6, 7, 8)),
        ]
    )[::-1]
    assert alone.separation is None
    assert both.separation is not None
    assert both.adjusted_p == both.separation.p


def test_a_difference_that_many_measures_would_show_is_not_called_one() -> None:
    rows = [(asked("tempo"), sample(1, 2, 3, 6), sample(4, 5, 7, 8))] * 3
    for found in compared(rows):
        assert found.separation is not None
        assert found.adjusted_p == pytest.approx(min(1, 3 * found.separation.p))
        assert not found.separates


def test_no_overlap_counts_whatever_so_few_can_show() -> None:
    few = knee(sample(0.05, 0.06, 0.07), sample(0.01, 0.02))
    assert few.adjusted_p > 0.05
    assert (few.separates, few.differs) == (True, False)
