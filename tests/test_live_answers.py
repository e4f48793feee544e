"""Verdicts told and counted; a swing without a ball does not count."""

from dataclasses import replace

import pytest

from baycue.cues.tones import Tone
from baycue.live.answers import Answers, Means
from baycue.live.feedback import feedback_mode
from baycue.live.screen import NoScreen
from baycue.live.silence import Silence
from baycue.live.tally import Tally
from baycue.live.timing import SwingTiming
from baycue.spine import ScoredSwing, UnscorableSwing
from baycue.swing.swing import Checkpoint, CheckpointName
from tests.scored_swing import scored_swing

TIMING = SwingTiming(0, 1, 2, 3, 4, 5, 30, 30)


class Told(Silence):
    """Counts the tones."""

    def __init__(self) -> None:
        self.tones: list[Tone] = []

    def play(self, tone: Tone) -> None:
        self.tones.append(tone)


def answers(mode: str = "at-once") -> Answers:
    return Answers(feedback_mode(mode), Means(Told(), NoScreen(), lambda line: None))


def tally(told: Answers) -> Tally:
    return told.standing(at_address=False).tally


def test_every_swing_counts() -> None:
    told = answers()
    told.known(scored_swing(1), TIMING)
    told.known(UnscorableSwing(2, "the feet are cut off"), TIMING)
    assert tally(told) == Tally(balls=2)


@pytest.mark.parametrize("swing", [scored_swing(2), UnscorableSwing(2, "the feet are cut off")])
def test_one_in_which_no_ball_was_heard_is_taken_back(
    swing: ScoredSwing | UnscorableSwing,
) -> None:
    told = answers()
    told.known(scored_swing(1), TIMING)
    told.known(swing, TIMING)
    told.no_ball(2)
    assert tally(told) == Tally(balls=1, practice=1)
    told.known(scored_swing(3), TIMING)
    assert tally(told) == Tally(balls=2, practice=1)


def test_it_may_be_known_before_its_answer_is_told() -> None:
    told = answers("on-request")
    told.known(scored_swing(1), TIMING)
    told.no_ball(1)
    assert tally(told) == Tally()
    told.tell_what_is_due(requested=True)
    assert tally(told) == Tally(practice=1)


def test_what_is_heard_too_late_changes_nothing() -> None:
    told = answers()
    told.known(scored_swing(1), TIMING)
    told.known(scored_swing(2), TIMING)
    told.no_ball(1)
    assert tally(told) == Tally(balls=2)


def with_finish(swing: ScoredSwing) -> ScoredSwing:
    finish = Checkpoint(CheckpointName.FINISH, 3_000_000_000, 1)
    known = replace(swing.evidence.swing, checkpoints=(*swing.evidence.swing.checkpoints, finish))
    return replace(swing, evidence=replace(swing.evidence, swing=known))


def test_the_newest_swing_is_known_with_its_finish() -> None:
    told = answers()
    told.known(scored_swing(1), TIMING)
    told.finished(with_finish(scored_swing(1)))
    assert isinstance(told.newest, ScoredSwing)
    assert told.newest.evidence.swing.at(CheckpointName.FINISH) is not None


def test_a_finish_of_an_older_swing_is_none_of_the_newest() -> None:
    told = answers()
    told.known(scored_swing(2), TIMING)
    told.finished(with_finish(scored_swing(1)))
    assert told.newest is scored_swing(2)
