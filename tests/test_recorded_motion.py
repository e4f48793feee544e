"""A real person's recorded motion before the segmentation: walking and climbing are no swing.

Where the recording is from and under which licence: ``tests/recorded_motion.py``.
"""

import numpy as np
import pytest

from baycue.pose.pose import LANDMARK_COUNT, Landmark, Pose
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import hand_sample
from baycue.swing.segment import advance
from baycue.swing.segment_state import SegmentState
from tests.canned_swing import canned_swing
from tests.recorded_motion import landmarks_m
from tests.stick_golfer import FloatArray, Pinhole, frame_times_s, poses_of

_BONES = {
    "thigh": (Landmark.LEFT_HIP, Landmark.LEFT_KNEE, 0.245),
    "shank": (Landmark.LEFT_KNEE, Landmark.LEFT_ANKLE, 0.246),
    "upper arm": (Landmark.LEFT_SHOULDER, Landmark.LEFT_ELBOW, 0.186),
}
_HANDS = [slice(15, 22, 2), slice(16, 23, 2)]


def strikes(poses: tuple[Pose, ...]) -> int:
    state, told = SegmentState(), 0
    for pose in poses:
        hands = hand_sample(pose, state.hands_seen)
        state, event = advance(state, hands)
        told += isinstance(event, StrikeSeen)
    return told


def filmed(points_m: FloatArray, heading_deg: float, fps: float) -> tuple[Pose, ...]:
    """The recording as a camera six metres off sees it, the person turned by a heading."""
    turn = np.radians(heading_deg)
    middle = points_m.mean(axis=(0, 1)) * [1, 0, 1]
    round_y = np.array(
        [[np.cos(turn), 0, np.sin(turn)], [0, 1, 0], [-np.sin(turn), 0, np.cos(turn)]]
    )
    world, camera = (points_m - middle) @ round_y.T, Pinhole(distance_m=6.0)
    return tuple(
        Pose(k, round(k / fps * 1e9), camera.seen_px(one), camera.model_m(one), _SEEN)
        for k, one in enumerate(world)
    )


_SEEN = np.ones(LANDMARK_COUNT)


def with_both_hands_on_a_club(points_m: FloatArray) -> FloatArray:
    """The left hand brought to the right one, as if both carried one thing."""
    held = points_m.copy()
    held[:, _HANDS[0]] = held[:, _HANDS[1]]
    return held


@pytest.mark.parametrize("name", _BONES)
def test_the_recorded_person_is_built_as_people_are(name: str) -> None:
    """Shares of stature: Drillis and Contini 1966 as printed in Winter 2009, fig. 4.1.

    Not the forearm: the file's bones about the wrist end a fifth before and behind it.
    """
    points_m = landmarks_m()
    first, second, share = _BONES[name]
    lengths_m = np.linalg.norm(points_m[:, first] - points_m[:, second], axis=1)
    assert lengths_m.std() < 1e-9
    thigh, shank = (
        float(np.linalg.norm(points_m[0, a] - points_m[0, b]))
        for a, b, _ in (_BONES["thigh"], _BONES["shank"])
    )
    assert lengths_m.mean() / (thigh + shank) == pytest.approx(share / 0.491, rel=0.16)


@pytest.mark.parametrize(("heading_deg", "every"), [(0, 2), (60, 4), (90, 2), (90, 4), (240, 4)])
@pytest.mark.parametrize("holds_a_club", [False, True])
def test_walking_and_climbing_are_no_swing(
    heading_deg: float, every: int, holds_a_club: bool
) -> None:
    """At 60 and 30 frames a second, if the recording has the customary 120 (it does not say)."""
    points_m = landmarks_m()[::every]
    if holds_a_club:
        points_m = with_both_hands_on_a_club(points_m)
    assert strikes(filmed(points_m, heading_deg, 120 / every)) == 0


def test_a_swing_before_the_same_camera_is_one() -> None:
    poses = poses_of(frame_times_s(30, -2.5, 1.5), canned_swing(), None, Pinhole(distance_m=6.0))
    assert strikes(poses) == 1
