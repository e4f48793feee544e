"""Scoring in another process: the same answers, and none lost when the process dies."""

import os
import signal
import time
from collections.abc import Iterator
from contextlib import contextmanager

import pytest

from baycue.live.desk import Scoring
from baycue.live.process_scorer import ProcessScorer
from baycue.live.scorer import HereScorer, Scorer
from baycue.plan.plan import Plan
from baycue.spine import FinishedSwing, ScoredSwing, UnscorableSwing
from baycue.swing.swing import CheckpointName
from tests.followed_swing import Step, steps
from tests.test_spine import plan_with

PLAN = plan_with()


@contextmanager
def another_process() -> Iterator[ProcessScorer]:
    scorer = ProcessScorer()
    try:
        yield scorer
    finally:
        scorer.close()


def shown_to(scorer: Scorer, step: Step, plan: Plan = PLAN) -> Scoring | None:
    """Do with one step of the swing what the analysis does."""
    scorer.follow(step.shown, plan)
    if step.struck:
        return scorer.score(step.struck)
    if step.gone_on:
        scorer.after(step.gone_on)
    return None


def whole_swing(scorer: Scorer) -> ScoredSwing | UnscorableSwing:
    (scoring,) = [s for s in (shown_to(scorer, step) for step in steps(2)) if s]
    return scoring.swing


def finished_by(scorer: Scorer, how_many: int) -> list[FinishedSwing]:
    found: list[FinishedSwing] = []
    deadline = time.monotonic() + 60
    while len(found) < how_many:
        found += scorer.finished()
        assert time.monotonic() < deadline
        time.sleep(0.01)
    return found


def same_verdict(one: object, other: object) -> bool:
    assert isinstance(one, ScoredSwing)
    assert isinstance(other, ScoredSwing)
    return one.verdict == other.verdict and one.evidence.swing == other.evidence.swing


@pytest.fixture
def patient(monkeypatch: pytest.MonkeyPatch) -> None:
    """A busy machine is no reason to take a process for one that hangs."""
    monkeypatch.setattr("baycue.live.process_scorer._PATIENCE_S", 120.0)


@pytest.mark.usefixtures("patient")
def test_the_answers_are_those_that_scoring_here_gives() -> None:
    here = HereScorer()
    expected = whole_swing(here)
    with another_process() as scorer:
        assert same_verdict(whole_swing(scorer), expected)
        told = finished_by(scorer, 2)
        assert scorer.notices() == ()
    theirs = here.finished()
    assert [f.scored.evidence.swing for f in told] == [f.scored.evidence.swing for f in theirs]
    assert told[-1].scored.evidence.swing.at(CheckpointName.FINISH) is not None


@pytest.mark.usefixtures("patient")
def test_a_process_that_dies_coming_down_is_replaced_and_the_swing_is_scored() -> None:
    expected = whole_swing(HereScorer())
    with another_process() as scorer:
        first, killed = scorer.process_id, False
        for step in steps(2):
            if step.shown.coming_down and not killed:
                os.kill(first or 0, signal.SIGKILL)
                killed = True
            scoring = shown_to(scorer, step)
            if scoring:
                assert same_verdict(scoring.swing, expected)
        assert scorer.process_id != first
        (notice,) = scorer.notices()
        assert "another one was started" in notice


def test_a_process_that_dies_at_the_strike_costs_no_answer() -> None:
    expected = whole_swing(HereScorer())
    with another_process() as scorer:
        first = scorer.process_id
        for step in steps(2):
            scorer.follow(step.shown, PLAN)
            if step.struck:
                os.kill(first or 0, signal.SIGKILL)
                assert same_verdict(scorer.score(step.struck).swing, expected)
            elif step.gone_on:
                scorer.after(step.gone_on)
        assert [f.scored.verdict.swing_number for f in finished_by(scorer, 2)] == [1, 1]
        (notice,) = scorer.notices()
        assert "swing 1 was scored without it" in notice


def test_one_that_hangs_is_not_waited_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("baycue.live.process_scorer._PATIENCE_S", 0.1)
    with another_process() as scorer:
        for step in steps(2):
            scorer.follow(step.shown, PLAN)
            if step.struck:
                os.kill(scorer.process_id or 0, signal.SIGSTOP)
                assert isinstance(scorer.score(step.struck).swing, ScoredSwing)
                break
        assert "did not answer" in scorer.notices()[0]


@pytest.mark.usefixtures("patient")
def test_a_new_plan_counts_from_the_next_glimpse() -> None:
    other = plan_with("  - {measure: tempo, between: [2, 4]}\n")
    with another_process() as scorer:
        for step in steps(2):
            scoring = shown_to(scorer, step, other if step.struck else PLAN)
            if scoring:
                assert isinstance(scoring.swing, ScoredSwing)
                assert len(scoring.swing.verdict.targets) == len(other.targets)


def test_it_ends_with_its_parent_closing() -> None:
    scorer = ProcessScorer()
    pid = scorer.process_id or 0
    scorer.close()
    with pytest.raises(ProcessLookupError):
        os.kill(pid, 0)
