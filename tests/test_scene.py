"""What makes a swing impossible to judge, and what the golfer is told to do about it."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan
from baycue.plan.stance import Handedness, View
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import stance_in_picture
from baycue.scene import PictureSize, why_unscorable
from tests.canned_readings import rough_strike
from tests.canned_swing import canned_swing
from tests.stick_golfer import Pinhole, down_the_line, frame_times_s, mirrored, poses_of

SIZE = PictureSize(Pinhole().width_px, Pinhole().height_px)
STRIKE = rough_strike(30)
FACE_ON = poses_of(frame_times_s(30, -1.3, 0.4), canned_swing())
DOWN_THE_LINE = poses_of(frame_times_s(30, -1.3, 0.4), canned_swing(), camera=down_the_line())
FEET = slice(Landmark.LEFT_ANKLE, Landmark.RIGHT_FOOT_INDEX + 1)
HEAD = slice(Landmark.NOSE, Landmark.MOUTH_RIGHT + 1)
HANDS = slice(Landmark.LEFT_WRIST, Landmark.RIGHT_THUMB + 1)


def plan_for(handedness: Handedness, mirror: bool, view: View = View.FACE_ON) -> Plan:
    text = (
        f"student: Heron\nhandedness: {handedness.value}\nstature: 178 cm\nview: {view.value}\n"
        f"camera:\n  mirrored: {'yes' if mirror else 'no'}\n"
        "targets:\n  - {measure: tempo, at_least: 2}\n"
    )
    return parse_plan(text, "plan.yaml")


RIGHT_HANDED = plan_for(Handedness.RIGHT, mirror=False)


def why(poses: Sequence[Pose], plan: Plan = RIGHT_HANDED) -> str | None:
    stance = stance_in_picture(plan.handedness, plan.camera.mirrored)
    return why_unscorable(STRIKE, tuple(poses), plan, stance, SIZE)


def with_part_at(poses: Sequence[Pose], part: slice, axis: int, where_px: float) -> list[Pose]:
    """The poses with some landmarks pushed to one row (axis 1) or column (axis 0)."""
    pushed = []
    for pose in poses:
        pixels = pose.pixels.copy()
        pixels[part, axis] = where_px
        pushed.append(replace(pose, pixels=pixels))
    return pushed


def test_a_whole_golfer_swinging_the_right_way_can_be_judged() -> None:
    assert why(FACE_ON) is None
    assert why(mirrored(FACE_ON, SIZE.width_px), plan_for(Handedness.RIGHT, True)) is None
    assert why(mirrored(FACE_ON, SIZE.width_px), plan_for(Handedness.LEFT, False)) is None
    assert why(FACE_ON, plan_for(Handedness.LEFT, True)) is None


@pytest.mark.parametrize("beyond_px", [30.0, 0.0, -5.0], ids=["outside", "on it", "near it"])
def test_feet_cut_off_are_told_with_what_to_do(beyond_px: float) -> None:
    reason = why(with_part_at(FACE_ON, FEET, 1, SIZE.height_px + beyond_px))
    assert reason is not None
    assert "feet" in reason
    assert "tilt the camera down or move it back" in reason


def test_a_head_cut_off_is_told_with_what_to_do() -> None:
    reason = why(with_part_at(FACE_ON, HEAD, 1, -4.0))
    assert reason is not None
    assert "head" in reason
    assert "tilt the camera up" in reason


@pytest.mark.parametrize("edge_px", [-3.0, SIZE.width_px + 3.0])
def test_hands_cut_off_at_either_side_are_told(edge_px: float) -> None:
    reason = why(with_part_at(FACE_ON, HANDS, 0, edge_px))
    assert reason is not None
    assert "hands" in reason


def test_a_part_that_is_cut_off_now_and_then_is_no_matter() -> None:
    poses = list(FACE_ON)
    poses[::3] = with_part_at(FACE_ON, FEET, 1, SIZE.height_px + 30.0)[::3]
    assert why(poses) is None
    poses[1::3] = with_part_at(FACE_ON, FEET, 1, SIZE.height_px + 30.0)[1::3]
    assert why(poses) is not None


def test_what_leaves_the_picture_after_address_is_no_matter() -> None:
    cut = with_part_at(FACE_ON, HEAD, 1, -4.0)
    late = [c if p.stamp_ns > STRIKE.takeaway_ns else p for c, p in zip(cut, FACE_ON, strict=True)]
    assert why(late) is None


@pytest.mark.parametrize(("says", "mirror"), [(Handedness.LEFT, False), (Handedness.RIGHT, True)])
def test_face_on_a_swing_the_other_way_is_told(says: Handedness, mirror: bool) -> None:
    reason = why(FACE_ON, plan_for(says, mirror))
    assert reason is not None
    assert "the swing goes the other way" in reason
    assert f"the plan says {says.value}-handed" in reason
    assert ("and mirrored" if mirror else "and not mirrored") in reason
    other = Handedness.LEFT if says is Handedness.RIGHT else Handedness.RIGHT
    assert f"set handedness: {other.value}" in reason


@pytest.mark.parametrize("says", Handedness)
@pytest.mark.parametrize("mirror", [False, True])
def test_down_the_line_the_ball_side_tells_the_hand(says: Handedness, mirror: bool) -> None:
    plan = plan_for(says, mirror, View.DOWN_THE_LINE)
    truly_as_right_hander = (says is Handedness.RIGHT) != mirror
    assert (why(DOWN_THE_LINE, plan) is None) is truly_as_right_hander
    flipped = mirrored(DOWN_THE_LINE, SIZE.width_px)
    assert (why(flipped, plan) is None) is not truly_as_right_hander


def test_the_cut_off_part_is_told_before_the_hand() -> None:
    poses = with_part_at(FACE_ON, FEET, 1, SIZE.height_px + 30.0)
    reason = why(poses, plan_for(Handedness.LEFT, False))
    assert reason is not None
    assert "feet" in reason


@settings(max_examples=15, deadline=None)
@given(st.floats(-0.5, 0.5), st.floats(2.9, 4.5), st.booleans())
def test_where_and_how_far_the_golfer_stands_is_no_matter(
    aside_m: float, distance_m: float, mirror: bool
) -> None:
    camera = Pinhole(distance_m, aside_m=aside_m)
    poses = poses_of(frame_times_s(10, -1.3, 0.3), canned_swing(), camera=camera)
    seen = mirrored(poses, SIZE.width_px) if mirror else poses
    assert why(seen, plan_for(Handedness.RIGHT, mirror)) is None
    assert why(seen, plan_for(Handedness.RIGHT, not mirror)) is not None


def test_poses_that_begin_after_the_takeaway_are_judged_by_their_first() -> None:
    late = [p for p in FACE_ON if p.stamp_ns > STRIKE.takeaway_ns]
    cut = with_part_at(late, FEET, 1, SIZE.height_px + 30.0)
    assert why(late) is None
    assert why([cut[0], *late[1:]]) is not None
    assert np.all([p.stamp_ns > STRIKE.takeaway_ns for p in late])


@pytest.mark.parametrize(
    ("poses", "plan_view", "seen"),
    [
        (FACE_ON, View.DOWN_THE_LINE, "seen face-on"),
        (DOWN_THE_LINE, View.FACE_ON, "seen down-the-line"),
    ],
)
def test_the_other_view_than_the_plan_says_is_told(
    poses: Sequence[Pose], plan_view: View, seen: str
) -> None:
    reason = why(poses, plan_for(Handedness.RIGHT, mirror=False, view=plan_view))
    assert reason is not None
    assert seen in reason
    assert f"the plan says {plan_view.value}" in reason
