"""Left and right: which side leads, and poses whose sides were taken for each other."""

from dataclasses import astuple, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.plan.stance import Handedness
from baycue.pose.pose import LANDMARK_COUNT, Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Stance, stance_in_picture
from baycue.pose.untangle import untangled
from tests.canned_swing import canned_swing
from tests.stick_golfer import Pinhole, frame_times_s, mirrored, poses_of

WIDTH_PX = Pinhole().width_px


def other_side(landmark: Landmark) -> Landmark:
    """By name: the left ear's is the right ear, the nose's the nose."""
    name = landmark.name
    if "LEFT" in name:
        return Landmark[name.replace("LEFT", "RIGHT")]
    return Landmark[name.replace("RIGHT", "LEFT")]


def tangled(pose: Pose) -> Pose:
    """The pose with every left landmark named right and the other way about."""
    order = [other_side(k) for k in Landmark]
    return replace(
        pose,
        pixels=pose.pixels[order],
        world_m=pose.world_m[order],
        visibility=pose.visibility[order],
    )


def same(a: Pose, b: Pose) -> bool:
    return all(np.array_equal(x, y) for x, y in zip(_arrays(a), _arrays(b), strict=True))


def _arrays(pose: Pose) -> tuple[np.ndarray, ...]:
    return pose.pixels, pose.world_m, pose.visibility


def random_pose(seed: int) -> Pose:
    rng = np.random.default_rng(seed)
    pixels, world = rng.uniform(0, 1000, (33, 2)), rng.normal(0, 1, (33, 3))
    return Pose(7, 8, pixels, world, rng.uniform(0, 1, 33))


@pytest.mark.parametrize("mirror", [False, True], ids=["right-hander", "left-hander"])
def test_a_golfer_seen_face_on_is_left_alone(mirror: bool) -> None:
    poses = poses_of(frame_times_s(10, -1, 0.5), canned_swing())
    for pose in mirrored(poses, WIDTH_PX) if mirror else poses:
        assert untangled(pose) is pose


@pytest.mark.parametrize("mirror", [False, True], ids=["right-hander", "left-hander"])
def test_exchanged_sides_are_put_right(mirror: bool) -> None:
    poses = poses_of(frame_times_s(10, -1, 0.5), canned_swing())
    for pose in mirrored(poses, WIDTH_PX) if mirror else poses:
        put_right = untangled(tangled(pose))
        assert same(put_right, pose)
        assert (put_right.frame_index, put_right.stamp_ns) == (pose.frame_index, pose.stamp_ns)


@settings(deadline=None)
@given(st.integers(0, 10_000))
def test_untangling_ends_with_the_left_ankle_on_the_right_and_stays(seed: int) -> None:
    pose = untangled(random_pose(seed))
    assert pose.pixels[Landmark.LEFT_ANKLE][0] >= pose.pixels[Landmark.RIGHT_ANKLE][0]
    assert untangled(pose) is pose


@settings(deadline=None)
@given(st.integers(0, 10_000))
def test_either_naming_of_the_sides_comes_out_the_same(seed: int) -> None:
    pose = random_pose(seed)
    assert same(untangled(pose), untangled(tangled(pose)))


def test_there_is_another_side_for_every_landmark() -> None:
    assert len(Landmark) == LANDMARK_COUNT
    alone = [k for k in Landmark if other_side(k) is k]
    assert alone == [Landmark.NOSE]


@pytest.mark.parametrize(("side", "name"), [(LEFT, "LEFT"), (RIGHT, "RIGHT")])
def test_a_side_is_made_of_its_own_joints(side: object, name: str) -> None:
    joints = astuple(side)  # type: ignore[call-overload]
    assert len(set(joints)) == 8
    assert all(j.name.startswith(name) for j in joints)
    assert [other_side(j) for j in joints] == list(astuple(RIGHT if name == "LEFT" else LEFT))


@pytest.mark.parametrize(
    ("handedness", "mirror", "left_leads"),
    [
        (Handedness.RIGHT, False, True),
        (Handedness.RIGHT, True, False),
        (Handedness.LEFT, False, False),
        (Handedness.LEFT, True, True),
    ],
)
def test_handedness_and_mirroring_make_a_stance(
    handedness: Handedness, mirror: bool, left_leads: bool
) -> None:
    assert stance_in_picture(handedness, mirror) == Stance(left_leads)


@pytest.mark.parametrize("left_leads", [True, False])
def test_lead_is_toward_the_target_and_trail_is_the_other(left_leads: bool) -> None:
    stance = Stance(left_leads)
    poses = poses_of(np.array([-1.0]), canned_swing())
    (pose,) = poses if left_leads else mirrored(poses, WIDTH_PX)
    step = pose.pixel(stance.lead.ankle)[0] - pose.pixel(stance.trail.ankle)[0]
    assert np.sign(step) == stance.toward_target
    assert {stance.lead, stance.trail} == {LEFT, RIGHT}
