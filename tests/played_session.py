"""A sample clip played through the whole live loop, step by step, with all that was told."""

import threading
import time
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import cycle, islice

import pytest

from baycue.capture.camera import LiveCamera
from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.capture.shot import Content
from baycue.capture.watchdog import Patience
from baycue.cues.keys import Key
from baycue.cues.tones import Tone
from baycue.errors import FeedEndedError, OutputError
from baycue.live.answers import Means, ToldSwing
from baycue.live.feedback import FeedbackMode
from baycue.live.plans import TargetSet
from baycue.live.session import Session
from baycue.live.set_up import SetUpCheck
from baycue.live.view import LiveView, Stage
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Pose
from baycue.verdict.verdict import Outcome, SwingVerdict
from tests.command_line import PLANS, SAMPLES
from tests.test_capture_network import wait_until

CLIP = SAMPLES / "two_swings_30fps.mp4"
PLAN = PLANS / "right_hander_knee_head_tempo.yaml"
LEFT_HANDED = PLANS / "left_hander_knee.yaml"


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
