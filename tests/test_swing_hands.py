"""Hands, arms and the start of the backswing from poses with known joints."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import Stance
from baycue.swing.arms import direction_deg, lead_arm_deg, turning_arm_deg
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import bodies_px, grip_px, grips_px, hand_sample, hand_track, middle_px
from baycue.swing.takeaway import takeaway_s
from tests.canned_swing import BACKSWING_S, CannedSwing, canned_swing, minimum_jerk
from tests.stick_golfer import (
    FloatArray,
    Pinhole,
    StickGolfer,
    frame_times_s,
    jittered,
    mirrored,
    poses_of,
)

RIGHT_HANDER, LEFT_HANDER = Stance(left_leads=True), Stance(left_leads=False)
WIDTH_PX = Pinhole().width_px
TOP_NS = 10_000_000_000


def pose_with(**places: tuple[float, float]) -> Pose:
    pixels = np.zeros((33, 2))
    for name, place in places.items():
        pixels[Landmark[name.upper()]] = place
    return Pose(0, 0, pixels, np.zeros((33, 3)), np.ones(33))


@pytest.mark.parametrize(
    ("step", "angle"),
    [((0, 1), 0), ((1, 0), 90), ((-1, 0), -90), ((3, 3), 45), ((-2, 2), -45), ((1, -1), 135)],
)
def test_directions_count_from_down_toward_the_target(
    step: tuple[float, float], angle: float
) -> None:
    start, end = np.array([[70.0, 50.0]]), np.array([[70.0 + step[0], 50.0 + step[1]]])
    assert direction_deg(start, end, RIGHT_HANDER) == pytest.approx([angle])
    assert direction_deg(start, end, LEFT_HANDER) == pytest.approx([-angle])


def test_the_lead_arm_is_unwrapped_through_the_swing() -> None:
    swing, times = canned_swing(), frame_times_s(60, -1.0, 0.8)
    poses = poses_of(times, swing)
    true = swing.arm_deg(times)
    assert true.max() - true.min() > 180
    assert lead_arm_deg(poses, RIGHT_HANDER) == pytest.approx(true, abs=1e-6)
    other = mirrored(poses, WIDTH_PX)
    assert lead_arm_deg(other, LEFT_HANDER) == pytest.approx(true, abs=1e-6)


def test_an_arm_that_passes_straight_up_goes_on_counting() -> None:
    times = np.linspace(0, 1, 12)
    swing = CannedSwing(times, np.linspace(-12, -215, 12), np.linspace(0, -250, 12))
    assert lead_arm_deg(poses_of(times, swing), RIGHT_HANDER) == pytest.approx(swing.arm)


def test_the_arm_turns_about_a_point_between_shoulder_nose_and_hips() -> None:
    """0.3 of the way to the nose and 0.25 to mid-hip: from (100, 100) to (114, 116)."""
    drawn = pose_with(
        left_shoulder=(100, 100), nose=(130, 70), left_hip=(130, 200), right_hip=(110, 200)
    )
    for wrist, angle in (((14, 116), -90), ((114, 216), 0), ((214, 116), 90)):
        pixels = drawn.pixels.copy()
        pixels[Landmark.LEFT_WRIST] = wrist
        pose = Pose(0, 0, pixels, drawn.world_m, drawn.visibility)
        assert turning_arm_deg((pose,), RIGHT_HANDER) == pytest.approx([angle])


def test_the_turning_arm_of_a_mirrored_golfer_is_the_same() -> None:
    swing, times = canned_swing(), frame_times_s(60, -1.0, 0.8)
    poses = poses_of(times, swing)
    turned = turning_arm_deg(poses, RIGHT_HANDER)
    assert turned.max() - turned.min() > 180
    assert turning_arm_deg(mirrored(poses, WIDTH_PX), LEFT_HANDER) == pytest.approx(turned)


def test_the_grip_lies_beyond_the_fingers_as_seen_from_the_wrists() -> None:
    pose = pose_with(
        left_wrist=(90, 100), right_wrist=(110, 100), left_index=(98, 120), right_index=(102, 120)
    )
    grip = grip_px(pose)
    assert grip[0] == pytest.approx(100)
    assert 120 < grip[1] < 140


def test_the_middle_of_some_landmarks() -> None:
    pose = pose_with(left_hip=(10, 20), right_hip=(20, 40))
    assert middle_px(pose, Landmark.LEFT_HIP, Landmark.RIGHT_HIP) == pytest.approx([15, 30])


def test_many_poses_at_once_are_read_as_one_by_one() -> None:
    poses = [pose_with(left_wrist=(k, 2 * k), right_hip=(30, 40 + k)) for k in range(5)]
    track, samples = hand_track(poses), [hand_sample(p) for p in poses]
    assert list(track.stamps_ns) == [s.stamp_ns for s in samples]
    assert grips_px(poses) == pytest.approx(np.array([s.hands_px for s in samples]))
    assert track.hands_px == pytest.approx(grips_px(poses))
    assert track.body_px == pytest.approx([s.body_px for s in samples])
    assert bodies_px(poses) == pytest.approx(track.body_px)


STANDING = {
    "left_shoulder": (110.0, 100.0),
    "right_shoulder": (90.0, 100.0),
    "left_hip": (110.0, 200.0),
    "right_hip": (90.0, 200.0),
    "left_ankle": (110.0, 400.0),
    "right_ankle": (90.0, 400.0),
    "left_wrist": (115.0, 190.0),
    "right_wrist": (85.0, 190.0),
    "left_index": (115.0, 190.0),
    "right_index": (85.0, 190.0),
}


def test_distances_are_counted_in_the_golfers_own_size() -> None:
    sample = hand_sample(pose_with(**STANDING))
    assert sample.body_px == pytest.approx(300)
    assert sample.hands_px == pytest.approx([100, 190])
    assert sample.apart == pytest.approx(0.1)
    assert sample.below_shoulders == pytest.approx(0.3)


@settings(deadline=None)
@given(st.floats(0.2, 5), st.floats(-500, 500), st.floats(-500, 500))
def test_nearer_or_elsewhere_is_the_same_golfer(scale: float, x: float, y: float) -> None:
    here = pose_with(**STANDING)
    there = replace(here, pixels=scale * here.pixels + [x, y])
    a, b = hand_sample(here), hand_sample(there)
    assert b.hands_px == pytest.approx(scale * a.hands_px + [x, y])
    assert b.body_px == pytest.approx(scale * a.body_px)
    assert (b.apart, b.below_shoulders) == pytest.approx((a.apart, a.below_shoulders))


def test_a_body_of_no_size_divides_by_nothing() -> None:
    assert np.isfinite(hand_sample(pose_with()).below_shoulders)


def strike(rough_takeaway_s: float) -> StrikeSeen:
    ns = [round(t * 1e9) + TOP_NS for t in (-1.2, rough_takeaway_s, 0.0, 0.31)]
    return StrikeSeen(*ns)


@pytest.mark.parametrize("fps", [30, 60, 120])
@pytest.mark.parametrize("phase", [0.0, 0.3, 0.7])
@pytest.mark.parametrize("late_s", [0.05, 0.2])
def test_a_minimum_jerk_takeaway_is_found_however_roughly_it_was_seen(
    fps: float, phase: float, late_s: float
) -> None:
    """Minimum jerk: Flash & Hogan 1985, J Neurosci 5:1688 (from memory).  Within 40 ms."""
    poses = poses_of(frame_times_s(fps, -1.5, 0.4, phase), canned_swing())
    found = takeaway_s(strike(-BACKSWING_S + late_s), poses) - TOP_NS * 1e-9
    assert found == pytest.approx(-BACKSWING_S, abs=0.04)


def straight_track(fps: float, far_m: float, seconds: float) -> tuple[Pose, ...]:
    """Hands that move in a straight minimum-jerk line, nothing else moves."""
    times = frame_times_s(fps, -seconds - 0.5, 0.1)
    still = poses_of(np.full(len(times), -2.0), canned_swing())
    gone_px = far_m * 200 * minimum_jerk((times + seconds) / seconds)
    hands = [k for k in Landmark if "WRIST" in k.name or "INDEX" in k.name]
    poses = []
    for k, pose in enumerate(still):
        pixels = pose.pixels.copy()
        pixels[hands] -= [gone_px[k], gone_px[k]]
        poses.append(replace(pose, pixels=pixels, stamp_ns=TOP_NS + round(times[k] * 1e9)))
    return tuple(poses)


@pytest.mark.parametrize("seconds", [0.6, 0.8, 1.1])
def test_a_straight_reach_is_dated_from_its_beginning(seconds: float) -> None:
    found = takeaway_s(strike(-seconds + 0.15), straight_track(120, 1.5, seconds))
    assert found - TOP_NS * 1e-9 == pytest.approx(-seconds, abs=0.05 * seconds)


def test_noise_on_the_landmarks_moves_the_takeaway_by_hundredths() -> None:
    found = []
    for seed in range(12):
        rng = np.random.default_rng(seed)
        poses = poses_of(frame_times_s(60, -1.5, 0.4, rng.uniform()), canned_swing())
        poses = jittered(poses, 1.5, rng)
        found.append(takeaway_s(strike(-BACKSWING_S + 0.15), poses) - TOP_NS * 1e-9)
    off = np.array(found) + BACKSWING_S
    assert abs(off.mean()) < 0.04
    assert off.std() < 0.05


def test_hands_that_never_went_far_leave_the_rough_time() -> None:
    times = frame_times_s(60, -1.5, 0.4)
    poses = poses_of(np.full(len(times), -2.0), canned_swing())
    stamped = tuple(
        replace(p, stamp_ns=TOP_NS + round(float(t) * 1e9))
        for p, t in zip(poses, times, strict=True)
    )
    assert takeaway_s(strike(-0.6), stamped) == pytest.approx(TOP_NS * 1e-9 - 0.6)


@settings(max_examples=20, deadline=None)
@given(st.integers(0, 2**40), st.floats(-0.2, 0.2))
def test_a_later_clock_moves_the_takeaway_by_as_much(later_ns: int, head_m: float) -> None:
    golfer = StickGolfer(head_m=lambda _t: head_m)
    poses = poses_of(TIMES, canned_swing(), golfer)
    moved = tuple(replace(p, stamp_ns=p.stamp_ns + later_ns) for p in poses)
    rough = strike(-BACKSWING_S + 0.1)
    later = StrikeSeen(
        *(
            t + later_ns
            for t in (rough.address_ns, rough.takeaway_ns, rough.top_ns, rough.return_ns)
        )
    )
    assert takeaway_s(later, moved) - takeaway_s(rough, poses) == pytest.approx(
        later_ns * 1e-9, abs=1e-5
    )


TIMES: FloatArray = frame_times_s(30, -1.3, 0.3)


@pytest.mark.parametrize("seed", range(2))
def test_mirroring_the_picture_does_not_move_the_takeaway(seed: int) -> None:
    poses = jittered(poses_of(TIMES, canned_swing()), 1.5, np.random.default_rng(seed))
    rough = strike(-BACKSWING_S + 0.1)
    there = takeaway_s(rough, mirrored(poses, WIDTH_PX))
    assert there == pytest.approx(takeaway_s(rough, poses), abs=1e-5)


@pytest.mark.parametrize("seed", range(2))
def test_shifting_the_picture_does_not_move_the_takeaway(seed: int) -> None:
    poses = jittered(poses_of(TIMES, canned_swing()), 1.5, np.random.default_rng(seed))
    shifted = [replace(p, pixels=p.pixels + np.array([400.0, -300.0])) for p in poses]
    rough = strike(-BACKSWING_S + 0.1)
    there = takeaway_s(rough, tuple(shifted))
    assert there == pytest.approx(takeaway_s(rough, poses), abs=1e-5)
