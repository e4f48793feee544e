"""The whole live loop: a recording played as if live gives the verdicts that scoring it gives."""

import threading
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import count, cycle, islice, repeat

import pytest

from baycue.capture.camera import LiveCamera
from baycue.capture.frame import Frame
from baycue.capture.opening import live_source, open_address
from baycue.capture.recording import RecordingSource
from baycue.capture.settings import CameraSettings
from baycue.capture.shot import Content
from baycue.capture.watchdog import Patience
from baycue.cues.keys import Key
from baycue.cues.tones import Tone
from baycue.errors import FeedEndedError, OutputError
from baycue.live.answers import Means, ToldSwing
from baycue.live.feedback import FeedbackMode, feedback_mode
from baycue.live.plans import TargetSet
from baycue.live.session import Session
from baycue.live.set_up import SetUpCheck
from baycue.live.view import LiveView, Stage
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Pose
from baycue.recording import score_frames
from baycue.rehearsal.jpeg_server import JpegServer
from baycue.setup.report import Answer
from baycue.spine import ScoredSwing, score_swing
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import Outcome, SwingVerdict
from tests.command_line import PLANS, SAMPLES
from tests.filmed_swing import KnownPoses
from tests.test_capture_network import jpeg, paced, wait_until

NO_GO = Answer.NO_GO
CLIP = SAMPLES / "two_swings_30fps.mp4"
PLAN = PLANS / "right_hander_knee_head_tempo.yaml"
LEAST_POSED = 0.7


@dataclass
class HeardSpeaker:
    """Remembers what was played."""

    played: list[Outcome] = field(default_factory=list)
    broken: bool = False
    closed: bool = False
    is_alive = True

    def play(self, tone: Tone) -> None:
        if self.broken:
            raise OutputError("no sound: it was pulled out")
        self.played.append(tone.outcome)

    def close(self) -> None:
        self.closed = True

    def describe(self) -> str:
        return "a speaker that remembers"


@dataclass
class SeenScreen:
    """Remembers the views and has keys pressed at stages."""

    wishes: dict[Stage, Iterator[Key]] = field(default_factory=dict)
    views: list[LiveView] = field(default_factory=list)

    def show(self, view: LiveView) -> None:
        if not self.views or self.views[-1] != view:
            self.views.append(view)

    def keys(self) -> tuple[Key, ...]:
        stage = self.views[-1].stage if self.views else None
        return tuple(islice(self.wishes.get(stage, iter(())), 1)) if stage else ()

    def close(self) -> None:
        pass

    def stages(self) -> list[Stage]:
        found: list[Stage] = []
        for view in self.views:
            if not found or found[-1] is not view.stage:
                found.append(view.stage)
        return found


@dataclass
class Played:
    """A session that is over."""

    told: Sequence[ToldSwing]
    speaker: HeardSpeaker
    screen: SeenScreen
    said: list[str]
    newest: object


class KnownFrames:
    """The pose model's answers to the clip's frames, looked up once."""

    def __init__(self, frames: Sequence[Frame], poses: Sequence[Pose | None]) -> None:
        self.frames, self._poses = frames, poses

    def standing_first(self, frames: int) -> "KnownFrames":
        """The golfer stands at the ball for so many frames more."""
        there_and_back = [*range(4, 20), *range(19, 3, -1)]
        order = [*islice(cycle(there_and_back), frames), *range(len(self.frames))]
        gap_ns = self.frames[1].stamp_ns
        shown = [
            replace(self.frames[number], index=k, stamp_ns=k * gap_ns)
            for k, number in enumerate(order)
        ]
        return KnownFrames(shown, [self._poses[number] for number in order])

    def estimate(self, frame: Frame) -> Pose | None:
        pose = self._poses[frame.index]
        return pose and replace(pose, stamp_ns=frame.stamp_ns, frame_index=frame.index)

    def close(self) -> None:
        """There is nothing to release."""


class SteppedCamera:
    """Plays frames, each when the one before has been looked at; its clock moves with them.

    So a busy machine sees every frame too.
    """

    def __init__(self, frames: Sequence[Frame]) -> None:
        self._frames = iter(frames)
        self._handed = 0
        # Long ago, so that a machine faster than the clip does not answer before it is shown.
        self._start_ns = self._now_ns = time.monotonic_ns() - 60_000_000_000
        self.looked_at: Callable[[], int] = lambda: 0

    def now_ns(self) -> int:
        return self._now_ns

    def read(self) -> Content:
        wait_until(lambda: self.looked_at() >= self._handed)
        frame = next(self._frames, None)
        if frame is None:
            raise FeedEndedError("played to its end")
        self._now_ns = self._start_ns + frame.stamp_ns
        self._handed += 1
        return frame.picture_bgr

    def close(self) -> None:
        """There is nothing to release."""

    def describe(self) -> str:
        return "stepped"


@cache
def known() -> KnownFrames:
    with RecordingSource(CLIP) as source, MediaPipePose() as estimator:
        frames = list(source)
        return KnownFrames(frames, [estimator.estimate(frame) for frame in frames])


def play(
    mode: FeedbackMode,
    wishes: dict[Stage, Iterator[Key]] | None = None,
    plans: tuple[Plan, ...] | None = None,
    broken: bool = False,
    set_up: SetUpCheck | None = None,
    golfer: KnownFrames | None = None,
) -> Played:
    """Play the clip through the whole loop, step by step."""
    golfer = golfer or known()
    speaker, screen, said = HeardSpeaker(broken=broken), SeenScreen(wishes or {}), list[str]()
    sets = [TargetSet(f"set {k}", plan) for k, plan in enumerate(plans or (load_plan(PLAN),))]
    stepped = SteppedCamera(golfer.frames)
    opening = threading.Event()

    def open_stepped() -> SteppedCamera:
        opening.wait(30)
        return stepped

    camera = LiveCamera(open_stepped, Patience(frozen_ns=None), clock=stepped.now_ns)
    means = Means(speaker, screen, said.append)
    session = Session(camera, golfer, sets, means, mode, set_up)
    stepped.looked_at = lambda: session.analysis.poses
    opening.set()
    session.run()
    return Played(session.answers.told, speaker, screen, said, session.answers.newest)


@pytest.fixture(scope="module")
def at_once() -> Played:
    return play(FeedbackMode())


def verdicts(played: Played) -> list[SwingVerdict]:
    found = [t.verdict for t in played.told if t.verdict is not None]
    assert len(found) == len(played.told)
    return found


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


def test_on_request_stays_silent_until_asked() -> None:
    played = play(feedback_mode("on-request"))
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]
    assert played.speaker.played == []
    assert {told.cue_ns for told in played.told} == {None}
    assert {view.verdict for view in played.screen.views} == {None}
    assert any(view.notice == "The answer is ready: press A." for view in played.screen.views)


def test_asked_it_answers_and_targets_can_be_changed() -> None:
    plan = load_plan(PLAN)
    easy = plan.model_copy(update={"targets": plan.targets[1:2]})
    wishes = {Stage.VERDICT: iter([Key.NEXT_TARGETS]), Stage.SWING: repeat(Key.ANSWER)}
    played = play(feedback_mode("on-request"), wishes, (easy, plan))
    assert [len(v.targets) for v in verdicts(played)] == [1, 3]
    assert played.speaker.played == [v.outcome for v in verdicts(played)]
    assert {"set 0", "set 1"} == {view.plan_name for view in played.screen.views}


def test_again_shows_and_sounds_it_once_more_and_counts_it_once() -> None:
    played = play(FeedbackMode(), {Stage.VERDICT: iter([Key.REPLAY])})
    assert played.speaker.played == [Outcome.FAIL, Outcome.FAIL, Outcome.PASS]
    assert (played.screen.views[-1].balls, len(played.told)) == (2, 2)


def test_the_sound_can_be_tried() -> None:
    played = play(FeedbackMode(), {Stage.WAITING: iter([Key.SOUND_CHECK])})
    assert played.speaker.played == [Outcome.PASS, Outcome.FAIL, Outcome.PASS]


def test_set_up_that_is_go_ends_by_itself() -> None:
    golfer = known().standing_first(150)
    played = play(FeedbackMode(), set_up=SetUpCheck(), golfer=golfer)
    stages = played.screen.stages()
    assert Stage.SET_UP in stages[: stages.index(Stage.ADDRESS)]
    assert Stage.SET_UP not in stages[stages.index(Stage.ADDRESS) :]
    assert any(v.set_up is not None and v.set_up.ready for v in played.screen.views)
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]


LEFT_HANDED = PLANS / "left_hander_knee.yaml"


def test_while_something_must_be_mended_no_swing_is_judged() -> None:
    golfer = known().standing_first(100)
    plans = (load_plan(LEFT_HANDED),)
    played = play(FeedbackMode(), plans=plans, set_up=SetUpCheck(), golfer=golfer)
    asked = [row.name for v in played.screen.views if v.set_up for row in v.set_up.of(NO_GO)]
    assert "handedness" in asked
    assert played.told == ()
    assert played.screen.views[-1].stage is Stage.SET_UP


def test_the_golfer_may_go_on_as_it_is() -> None:
    golfer = known().standing_first(100)
    played = play(
        FeedbackMode(),
        {Stage.SET_UP: repeat(Key.ANSWER)},
        (load_plan(LEFT_HANDED),),
        set_up=SetUpCheck(),
        golfer=golfer,
    )
    assert [told.verdict for told in played.told] == [None, None], "it swings the other way"
    watching = played.screen.stages().index(Stage.WAITING)
    assert Stage.SET_UP not in played.screen.stages()[watching:]


def test_the_set_up_is_checked_again_when_asked() -> None:
    set_up = SetUpCheck()
    set_up.go_on()
    golfer = known().standing_first(60)
    wishes = {Stage.VERDICT: iter([Key.SET_UP]), Stage.SET_UP: repeat(Key.ANSWER, 1)}
    played = play(FeedbackMode(), wishes, set_up=set_up, golfer=golfer)
    stages = played.screen.stages()
    assert Stage.SET_UP not in stages[: stages.index(Stage.VERDICT)]
    assert Stage.SET_UP in stages[stages.index(Stage.VERDICT) :]
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]


def test_p8_and_finish_are_known_of_the_newest_swing(at_once: Played) -> None:
    assert isinstance(at_once.newest, ScoredSwing)
    swing = at_once.newest.evidence.swing
    assert swing.at(CheckpointName.P8) is not None
    assert swing.at(CheckpointName.FINISH) is not None


def test_paused_it_scores_nothing() -> None:
    played = play(FeedbackMode(), {Stage.WAITING: iter([Key.PAUSE])})
    assert played.told == ()
    assert Stage.PAUSED in played.screen.stages()


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


def test_a_lost_speaker_ends_nothing() -> None:
    played = play(FeedbackMode(), broken=True)
    assert [v.outcome for v in verdicts(played)] == [Outcome.FAIL, Outcome.PASS]
    health = played.screen.views[-1].health
    assert (health.sound_ok, health.sound) == (False, "no sound: it was pulled out")


def test_a_lost_camera_is_shown_and_the_session_goes_on() -> None:
    silent, go_on = threading.Event(), threading.Event()

    def show() -> Iterator[bytes]:
        for k, picture in enumerate(paced(jpeg(k) for k in count())):
            if k > 20 and not go_on.is_set():
                silent.set()
                go_on.wait(30)
            yield picture

    screen = SeenScreen()
    patience = Patience(silent_ns=400_000_000)
    with JpegServer(show) as server:
        camera = LiveCamera(lambda: open_address(server.url), patience)
        means = Means(HeardSpeaker(), screen, lambda line: None)
        sets = [TargetSet("any", load_plan(PLAN))]
        session = Session(camera, KnownPoses({}), sets, means, FeedbackMode())

        def play_the_part() -> None:
            silent.wait(30)
            wait_for(screen, Stage.OFFLINE)
            go_on.set()
            wait_for(screen, Stage.WAITING)
            session.stop()

        other = threading.Thread(target=play_the_part)
        other.start()
        session.run()
        other.join()
    stages = screen.stages()
    assert Stage.OFFLINE in stages[stages.index(Stage.WAITING) :]
    assert stages[-1] is Stage.WAITING
    lost = next(v for v in reversed(screen.views) if v.stage is Stage.OFFLINE)
    assert lost.notice
    assert not lost.health.camera_online


def wait_for(screen: SeenScreen, stage: Stage) -> None:
    deadline = time.monotonic() + 30
    while screen.views[-1].stage is not stage:
        assert time.monotonic() < deadline
        time.sleep(0.01)
