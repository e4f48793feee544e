"""The set-up check: rendered cameras deliberately set wrong, and samples that are set right."""

import math
from dataclasses import dataclass, field, replace
from functools import cache
from itertools import islice
from pathlib import Path

import numpy as np
import pytest

from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.club.background import shrink_to_grey
from baycue.club.scenes import SHRINK
from baycue.glimpse import Glimpse, glimpses
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.pose.bystanders import Person
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Landmark
from baycue.setup.check import SetUpExtras, SetUpWatch, check
from baycue.setup.looked import Looked
from baycue.setup.report import Answer, SetUpReport, SetUpRow
from baycue.setup.way_round import raised_hand
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import render_frame, stage_of
from baycue.synthetic.recipes import FACE_ON, Recipe
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle

ROOT = Path(__file__).parents[1]
GAP_NS = 40_000_000


def plan(name: str = "right_hander_knee_head_tempo") -> Plan:
    return load_plan(ROOT / "configs" / f"{name}.yaml")


def round_the_golfer(deg: float) -> Camera:
    """A camera that has gone to its right round the golfer and still aims at the golfer."""
    angle = math.radians(deg)
    aside, ahead = 3.6 * math.sin(angle), 3.6 * math.cos(angle)
    return replace(FACE_ON, distance_m=ahead, aside_m=aside, yaw_deg=-deg)


@dataclass(frozen=True)
class Wrong:
    """A way to set the bay up."""

    camera: Camera = field(default_factory=lambda: FACE_ON)
    dim: float = 1.0
    mirrored: bool = False


WRONG = {
    "right": Wrong(),
    "too far": Wrong(replace(FACE_ON, distance_m=7.5)),
    "too near": Wrong(replace(FACE_ON, distance_m=2.0)),
    "feet cut off": Wrong(replace(FACE_ON, tilt_deg=-9)),
    "no headroom": Wrong(replace(FACE_ON, tilt_deg=12)),
    "rolled": Wrong(replace(FACE_ON, roll_deg=4)),
    "rolled back": Wrong(replace(FACE_ON, roll_deg=-4)),
    "panned": Wrong(replace(FACE_ON, yaw_deg=10)),
    "round 10": Wrong(round_the_golfer(10)),
    "round 20": Wrong(round_the_golfer(20)),
    "round -20": Wrong(round_the_golfer(-20)),
    "dim": Wrong(dim=0.2),
    "mirrored": Wrong(mirrored=True),
}


@cache
def seen(name: str) -> tuple[Glimpse, ...]:
    """A golfer at address, one rendered picture with fresh noise in each frame."""
    wrong = WRONG[name]
    recipe = Recipe("x", "x", swings=(SwingStyle(),), camera=wrong.camera, bay="cluttered")
    shot = recipe.shot()
    motion = SwingMotion(shot.body, SwingStyle())
    picture = render_frame(shot, stage_of(shot), motion.moment_at, 10)
    picture = np.ascontiguousarray(picture[:, ::-1]) if wrong.mirrored else picture
    rng = np.random.default_rng(1)
    noisy = [
        np.clip(wrong.dim * picture + rng.normal(0, 2, picture.shape), 0, 255).astype(np.uint8)
        for _ in range(12)
    ]
    count = 30 if name == "right" else 18
    frames = [Frame(k, k * GAP_NS, noisy[k % 12]) for k in range(count)]
    with MediaPipePose() as estimator:
        return tuple(glimpses(frames, estimator))


def report_of(name: str, extras: SetUpExtras | None = None) -> SetUpReport:
    return check(Looked(seen(name), plan()), extras)


def row(report: SetUpReport, name: str) -> SetUpRow:
    return next(each for each in report.rows if each.name == name)


def test_a_bay_set_up_right_is_a_go() -> None:
    report = report_of("right", SetUpExtras(people=(), sound_heard=True))
    assert report.ready
    unsure = {each.name for each in report.of(Answer.UNSURE)}
    assert unsure == {"mirrored", "shutter"}
    assert {each.do for each in report.of(Answer.GO)} == {""}


@pytest.mark.parametrize(
    ("setting", "matter", "do"),
    [
        ("too far", "distance", "nearer"),
        ("too near", "distance", "back"),
        ("too near", "whole golfer", "move it back"),
        ("feet cut off", "whole golfer", "Tilt the camera down"),
        ("no headroom", "room for the club", "Tilt the camera up"),
        ("rolled", "level", "4 deg anticlockwise"),
        ("rolled back", "level", "4 deg clockwise"),
        ("panned", "centred", "Turn the camera to the picture's left"),
        ("round 20", "square", "move the camera to the left"),
        ("round -20", "square", "move the camera to the right"),
        ("dim", "light", "More light"),
        ("mirrored", "handedness", "turn mirrored round"),
    ],
)
def test_what_is_wrong_is_found_with_what_to_move_and_which_way(
    setting: str, matter: str, do: str
) -> None:
    found = row(report_of(setting), matter)
    assert found.answer is Answer.NO_GO
    assert do in found.do


def test_ten_degrees_round_are_not_called_sure() -> None:
    assert row(report_of("round 10"), "square").answer is Answer.UNSURE


@pytest.mark.parametrize(("setting", "metres"), [("right", 3.6), ("too far", 7.5)])
def test_the_distance_is_good_to_a_tenth(setting: str, metres: float) -> None:
    told = float(row(report_of(setting), "distance").found.split()[1])
    assert told == pytest.approx(metres, rel=0.1)


def test_a_mirrored_picture_agrees_with_a_plan_that_says_so() -> None:
    report = check(Looked(seen("mirrored"), plan("mirrored_webcam")))
    assert row(report, "handedness").answer is Answer.GO


@pytest.mark.parametrize(
    ("raised", "mirrored", "answer"),
    [
        (Landmark.LEFT_WRIST, False, Answer.GO),
        (Landmark.RIGHT_WRIST, False, Answer.NO_GO),
        (Landmark.RIGHT_WRIST, True, Answer.GO),
    ],
)
def test_a_raised_left_hand_tells_mirroring(
    raised: Landmark, mirrored: bool, answer: Answer
) -> None:
    up = tuple(with_raised(g, raised) for g in seen("right"))
    the_plan = plan("mirrored_webcam") if mirrored else plan()
    report = check(Looked((*seen("right"), *up), the_plan))
    assert row(report, "mirrored").answer is answer


def with_raised(glimpse: Glimpse, wrist: Landmark) -> Glimpse:
    if glimpse.pose is None:
        return glimpse
    pixels = glimpse.pose.pixels.copy()
    pixels[wrist, 1] = pixels[Landmark.NOSE, 1] - 90
    return replace(glimpse, pose=replace(glimpse.pose, pixels=pixels))


def test_no_hand_is_raised_at_address() -> None:
    assert raised_hand([g.pose for g in seen("right") if g.pose]) is None


class TestCompanyAndSound:
    @pytest.mark.parametrize(("apart_px", "answer"), [(0.0, Answer.NO_GO), (300.0, Answer.GO)])
    def test_somebody_who_stays_is_wrong_and_who_walks_through_is_not(
        self, apart_px: float, answer: Answer
    ) -> None:
        golfer = Person(np.array([640.0, 400.0]), 320.0)
        people = tuple(
            (golfer, Person(np.array([100.0 + k * apart_px, 400.0]), 300.0)) for k in range(3)
        )
        report = report_of("right", SetUpExtras(people=people))
        assert row(report, "one person").answer is answer

    @pytest.mark.parametrize(
        ("heard", "answer"), [(None, Answer.UNSURE), (True, Answer.GO), (False, Answer.NO_GO)]
    )
    def test_the_sound(self, heard: bool | None, answer: Answer) -> None:
        assert row(report_of("right", SetUpExtras(sound_heard=heard)), "sound").answer is answer


class TestWatch:
    def test_it_reports_once_a_second_was_seen_and_keeps_no_more_than_it_needs(self) -> None:
        watch, reported_at = SetUpWatch(), None
        for glimpse in seen("right"):
            assert not (reported_at and watch.report(plan()) is None)
            watch = watch.after(glimpse)
            if watch.has_enough and reported_at is None:
                reported_at = glimpse.stamp_ns
        assert reported_at == pytest.approx(1.0e9, abs=0.3e9)
        later = replace(seen("right")[-1], stamp_ns=10**11)
        assert watch.after(later).seen == (later,)

    def test_an_empty_bay_is_told_too(self) -> None:
        watch = SetUpWatch()
        grey = shrink_to_grey(np.zeros((720, 1280, 3), np.uint8), SHRINK)
        for k in range(100):
            watch = watch.after(Glimpse(k, k * 33_333_333, 1280, 720, None, grey))
        report = watch.report(plan())
        assert report is not None
        assert row(report, "golfer").answer is Answer.NO_GO
        assert not report.ready

    def test_nothing_seen_is_no_report(self) -> None:
        assert SetUpWatch().report(plan()) is None

    def test_too_few_frames_a_second_are_refused(self) -> None:
        slow = tuple(replace(g, stamp_ns=2 * k * GAP_NS) for k, g in enumerate(seen("right")))
        assert row(check(Looked(slow, plan())), "frame rate").answer is Answer.NO_GO


SAMPLES = {
    "knee_pass_30fps": "right_hander_knee_head_tempo",
    "left_handed_30fps": "left_hander_knee",
    "mirrored_30fps": "mirrored_webcam",
    "driver_30fps": "driver_knee_and_tempo",
    "slow_shutter_30fps": "right_hander_knee_head_tempo",
    "down_the_line_30fps": "down_the_line_head",
}


@pytest.mark.parametrize(("sample", "config"), SAMPLES.items())
def test_the_samples_are_a_go(sample: str, config: str) -> None:
    with (
        RecordingSource(ROOT / "sample_recordings" / f"{sample}.mp4") as source,
        MediaPipePose() as estimator,
    ):
        watch = SetUpWatch()
        for glimpse in glimpses(islice(source, 36), estimator):
            watch = watch.after(glimpse)
    report = watch.report(plan(config))
    assert report is not None
    assert report.of(Answer.NO_GO) == ()


def test_frames_that_were_not_looked_at_do_not_slow_the_camera_down() -> None:
    every = check(Looked(seen("right"), plan()))
    some = check(Looked(seen("right")[::2], plan()))
    (rate,), (rate_by_some,) = (
        [row for row in report.rows if row.name == "frame rate"] for report in (every, some)
    )
    assert rate_by_some == rate
    assert rate.found.startswith("25 a second")
