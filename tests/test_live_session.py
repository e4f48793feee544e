"""The whole live loop: a recording played as if live gives the verdicts that scoring it gives."""

import pytest

from baycue.capture.camera import LiveCamera
from baycue.capture.opening import live_source
from baycue.capture.settings import CameraSettings
from baycue.live.answers import Means
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.session import Session
from baycue.live.set_up import SetUpCheck
from baycue.live.view import Stage
from baycue.plan.load import load_plan
from baycue.pose.landmarker import MediaPipePose
from baycue.recording import score_frames
from baycue.setup.report import Answer
from baycue.spine import ScoredSwing, score_swing
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import Outcome
from tests.played_session import (
    CLIP,
    LEFT_HANDED,
    PLAN,
    HeardSpeaker,
    Played,
    SeenScreen,
    at_once,
    known,
    play,
    verdicts,
)

__all__ = ["at_once"]

NO_GO = Answer.NO_GO
LEAST_POSED = 0.7


def test_live_gives_the_verdicts_that_scoring_gives(at_once: Played) -> None:
    _, expected = score_frames(CLIP.name, known().frames, known(), load_plan(PLAN))
    assert len(expected) == 2
    for live, scored in zip(verdicts(at_once), expected, strict=True):
        assert live.outcome is scored.verdict.outcome
        for mine, theirs in zip(live.targets, scored.verdict.targets, strict=True):
            assert mine.measurement is not None
            assert theirs.measurement is not None
            assert mine.measurement.value == pytest.approx(theirs.measurement.value, abs=1e-4)


def test_in_real_time_too() -> None:
    """With the real pose model and the real clock, as far as the machine keeps up."""
    source = live_source(str(CLIP), CameraSettings())
    speaker = HeardSpeaker()
    with MediaPipePose() as estimator:
        camera = LiveCamera(source.open_feed, source.patience)
        sets = [TargetSet("any", load_plan(PLAN))]
        means = Means(speaker, SeenScreen(), lambda line: None)
        session = Session(camera, estimator, sets, means, FeedbackMode())
        session.run()
    posed = session.analysis.poses / len(known().frames)
    assert camera.status().frames == len(known().frames)
    if posed < LEAST_POSED:
        pytest.skip(f"this machine is too busy to watch live: {posed:.0%} of frames posed")
    assert speaker.played == [Outcome.FAIL, Outcome.PASS]
    assert all(told.timing.posed <= told.timing.frames for told in session.answers.told)


def test_every_verdict_was_sounded_and_shown(at_once: Played) -> None:
    outcomes = [verdict.outcome for verdict in verdicts(at_once)]
    assert at_once.speaker.played == outcomes == [Outcome.FAIL, Outcome.PASS]
    assert at_once.speaker.closed
    last = at_once.screen.views[-1]
    assert last.verdict == verdicts(at_once)[-1]
    assert (last.balls, last.passes, last.run_of_passes) == (2, 1, 1)
    assert [line.split(".")[0].split(" (")[0] for line in at_once.said] == [
        "swing 1: FAIL",
        "swing 2: PASS",
    ]


def test_the_screen_follows_the_golfer(at_once: Played) -> None:
    stages = at_once.screen.stages()
    first = stages.index(Stage.VERDICT)
    assert {Stage.ADDRESS, Stage.SWING} <= set(stages[:first])
    assert Stage.SWING in stages[first:]
    assert stages.count(Stage.VERDICT) >= 2


def test_every_frame_of_a_swing_was_used_posed_or_not(at_once: Played) -> None:
    assert isinstance(at_once.newest, ScoredSwing)
    takeaway = at_once.newest.evidence.swing.at(CheckpointName.TAKEAWAY)
    timing = at_once.told[-1].timing
    assert takeaway is not None
    assert timing.frames >= 30 * (timing.trigger_ns - takeaway.time_ns) / 1e9
    assert 0 < timing.posed <= timing.frames


def test_the_moments_of_an_answer_come_in_order(at_once: Played) -> None:
    for told in at_once.told:
        timing = told.timing
        assert told.cue_ns is not None
        assert told.software_ms is not None
        moments = (timing.impact_ns, timing.trigger_ns, timing.seen_ns, timing.filled_ns)
        assert list(moments) == sorted(moments)
        assert timing.filled_ns <= timing.scored_ns <= told.cue_ns
        in_all_ms = (timing.scored_ns - timing.impact_ns) / 1e6
        assert sum(timing.split_ms.values()) == pytest.approx(in_all_ms)


def test_set_up_that_is_go_ends_by_itself() -> None:
    golfer = known().standing_first(150)
    played = play(FeedbackMode(), set_up=SetUpCheck(), golfer=golfer)
    stages = played.screen.stages()
    assert Stage.SET_UP in stages[: stages.index(Stage.ADDRESS)]
    assert Stage.SET_UP not in stages[stages.index(Stage.ADDRESS) :]
    assert any(v.set_up is not None and v.set_up.ready for v in played.screen.views)
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]


def test_while_something_must_be_mended_no_swing_is_judged() -> None:
    golfer = known().standing_first(100)
    plans = (load_plan(LEFT_HANDED),)
    played = play(FeedbackMode(), plans=plans, set_up=SetUpCheck(), golfer=golfer)
    asked = [row.name for v in played.screen.views if v.set_up for row in v.set_up.of(NO_GO)]
    assert "handedness" in asked
    assert played.told == ()
    assert played.screen.views[-1].stage is Stage.SET_UP


def test_p8_and_finish_are_known_of_the_newest_swing(at_once: Played) -> None:
    assert isinstance(at_once.newest, ScoredSwing)
    swing = at_once.newest.evidence.swing
    assert swing.at(CheckpointName.P8) is not None
    assert swing.at(CheckpointName.FINISH) is not None


def test_a_fault_on_one_swing_does_not_end_the_session(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(number: int, *_: object) -> ScoredSwing:
        if number == 1:
            raise ValueError("a fault of ours")
        return score_swing(number, *_)  # type: ignore[arg-type, return-value]

    monkeypatch.setattr("baycue.live.desk.score_swing", fail)
    played = play(FeedbackMode())
    assert played.speaker.played == [Outcome.PASS]
    assert played.said[0].startswith("swing 1 cannot be judged: this program failed on it")
    assert "a fault of ours" in played.said[0]
