from dataclasses import replace

import numpy as np
import pytest

from baycue.pose.framing import BodyPart, parts_cut_off
from baycue.pose.pose import LANDMARK_COUNT, Landmark, Pose
from baycue.pose.presence import Presence, body_height_px, plausible

SIZE = (1280, 720)
STATURE_PX = 600.0
FRAME_NS = 33_333_333

HEIGHTS = {
    "ANKLE": 0.039,
    "KNEE": 0.285,
    "HIP": 0.530,
    "SHOULDER": 0.818,
    "ELBOW": 0.818 - 0.186,
    "WRIST": 0.818 - 0.186 - 0.146,
}
HALF_WIDTHS = {"SHOULDER": 0.259 / 2, "HIP": 0.191 / 2}
"""Shares of stature: Drillis & Contini 1966, as in Winter 2009, figure 4.1."""


def standing_person() -> Pose:
    """A person standing straight, arms hanging, in the middle of the picture."""
    pixels = np.full((LANDMARK_COUNT, 2), (640.0, 680 - 0.92 * STATURE_PX))
    for landmark in Landmark:
        side, _, joint = landmark.name.partition("_")
        if joint in HEIGHTS:
            half_width = HALF_WIDTHS.get(joint, 0.259 / 2 if joint in ("ELBOW", "WRIST") else 0.08)
            sign = 1 if side == "LEFT" else -1
            pixels[landmark] = (
                640 + sign * half_width * STATURE_PX,
                680 - HEIGHTS[joint] * STATURE_PX,
            )
        elif joint in ("HEEL", "FOOT_INDEX"):
            pixels[landmark] = (640, 680)
        elif joint in ("PINKY", "INDEX", "THUMB"):
            pixels[landmark] = (640, 680 - 0.4 * STATURE_PX)
    return Pose(0, 0, pixels, np.zeros((LANDMARK_COUNT, 3)), np.full(LANDMARK_COUNT, 0.9))


def moved(pose: Pose, shift: tuple[float, float], scale: float = 1.0) -> Pose:
    centre = np.array([640.0, 400.0])
    return replace(pose, pixels=(pose.pixels - centre) * scale + centre + np.array(shift))


def with_landmark(pose: Pose, landmark: Landmark, at: tuple[float, float]) -> Pose:
    pixels = pose.pixels.copy()
    pixels[landmark] = at
    return replace(pose, pixels=pixels)


def told(presence: Presence, poses: list[Pose | None], start_frame: int = 0) -> Presence:
    """The presence after 30 frames a second of these poses."""
    for number, pose in enumerate(poses, start=start_frame):
        stamp_ns = number * FRAME_NS
        stamped = None if pose is None else replace(pose, stamp_ns=stamp_ns)
        presence = presence.after(stamp_ns, stamped, SIZE)
    return presence


def test_a_standing_person_is_plausible() -> None:
    assert plausible(standing_person(), SIZE)


def test_the_smallest_golfer_of_the_bay_is_plausible() -> None:
    """Nose to ankles 134 of 720 px: 1.05 m, of one 1.50 m tall at the ball, 5 m from a camera that
    sees 90 degrees across, by the pinhole's 640 px of focal length.
    """
    upright = standing_person()
    assert plausible(moved(upright, (0, 0), 640 * 1.05 / 5 / body_height_px(upright)), SIZE)


def test_a_person_bent_over_towards_the_camera_is_plausible() -> None:
    pose = standing_person()
    pixels = pose.pixels.copy()
    hip_y = pixels[Landmark.LEFT_HIP][1]
    upper = pixels[:, 1] < hip_y
    pixels[upper, 1] = hip_y + (pixels[upper, 1] - hip_y) * np.cos(np.radians(45))
    assert plausible(replace(pose, pixels=pixels), SIZE)


def test_a_crouching_finish_with_one_knee_well_bent_is_plausible() -> None:
    pose = standing_person()
    knee = pose.pixels[Landmark.RIGHT_KNEE]
    assert plausible(with_landmark(pose, Landmark.RIGHT_KNEE, (knee[0] + 60, knee[1] + 20)), SIZE)


@pytest.mark.parametrize(
    "pose",
    [
        moved(standing_person(), (0, 0), 0.2),
        replace(standing_person(), pixels=standing_person().pixels * [1, -1] + [0, 720]),
        replace(standing_person(), pixels=standing_person().pixels[:, ::-1].copy()),
        replace(standing_person(), visibility=np.full(LANDMARK_COUNT, 0.3)),
        replace(standing_person(), pixels=np.full((LANDMARK_COUNT, 2), np.nan)),
        with_landmark(standing_person(), Landmark.LEFT_WRIST, (1200, 100)),
        with_landmark(standing_person(), Landmark.LEFT_KNEE, (1000, 500)),
        with_landmark(standing_person(), Landmark.NOSE, (640, 500)),
    ],
    ids=["tiny", "upside down", "lying", "hidden", "nowhere", "long arm", "long leg", "no head"],
)
def test_what_is_no_standing_person_is_not_plausible(pose: Pose) -> None:
    assert not plausible(pose, SIZE)


def test_body_height_is_nose_to_ankle() -> None:
    assert body_height_px(standing_person()) == pytest.approx((0.92 - 0.039) * STATURE_PX)


def test_a_golfer_appears_after_a_quarter_of_a_second() -> None:
    assert not told(Presence(), [standing_person()] * 8).golfer_present
    assert told(Presence(), [standing_person()] * 9).golfer_present


def test_a_body_that_jumps_about_never_appears() -> None:
    left, right = moved(standing_person(), (-150, 0)), moved(standing_person(), (150, 0))
    assert not told(Presence(), [left, right] * 30).golfer_present


def test_a_body_that_grows_and_shrinks_never_appears() -> None:
    small = moved(standing_person(), (0, 0), 0.7)
    assert not told(Presence(), [standing_person(), small] * 30).golfer_present


def test_a_golfer_stays_through_a_short_gap_and_goes_after_a_long_one() -> None:
    there = told(Presence(), [standing_person()] * 20)
    assert told(there, [None] * 15, 20).golfer_present
    assert not told(there, [None] * 17, 20).golfer_present


def test_a_golfer_walking_in_appears() -> None:
    """1.4 m/s, a usual walking speed (common practice, no source), for 1.7 m of stature."""
    step_px = 1.4 / 1.7 * STATURE_PX / 30
    walk = [moved(standing_person(), (-300 + number * step_px, 0)) for number in range(20)]
    assert told(Presence(), list(walk)).golfer_present


def test_a_whole_body_in_the_picture_has_nothing_cut_off() -> None:
    assert parts_cut_off(standing_person(), *SIZE) == frozenset()


def test_a_body_low_in_the_picture_has_its_feet_cut_off() -> None:
    assert parts_cut_off(moved(standing_person(), (0, 60)), *SIZE) == {BodyPart.FEET}


def test_a_body_high_in_the_picture_has_its_head_cut_off() -> None:
    assert parts_cut_off(moved(standing_person(), (0, -130)), *SIZE) == {BodyPart.HEAD}
