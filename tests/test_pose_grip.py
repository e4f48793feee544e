"""Hands that hold one club stay together, whatever the pose model says of one of them."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.pose.grip import LEFT_HAND, RIGHT_HAND, gripped, gripped_throughout, hand_px, torso_px
from baycue.pose.pose import Landmark, Pose
from tests.canned_swing import canned_swing
from tests.stick_golfer import frame_times_s, poses_of

POSES = tuple(poses_of(frame_times_s(30, -1, 0.1), canned_swing()))
HANDS = {"left": LEFT_HAND, "right": RIGHT_HAND}


def astray(pose: Pose, hand: tuple[Landmark, ...], by_torsos: float) -> Pose:
    pixels = pose.pixels.copy()
    pixels[list(hand)] += [by_torsos * torso_px(pose), 0.3 * torso_px(pose)]
    return replace(pose, pixels=pixels)


def middle(pose: Pose) -> np.ndarray:
    return (hand_px(pose, LEFT_HAND) + hand_px(pose, RIGHT_HAND)) / 2


def test_hands_on_the_grip_are_left_alone() -> None:
    assert all(a is b for a, b in zip(gripped_throughout(POSES), POSES, strict=True))


@pytest.mark.parametrize("side", HANDS)
@pytest.mark.parametrize("by_torsos", [0.8, -1.5])
def test_a_hand_gone_astray_is_put_beside_the_other(side: str, by_torsos: float) -> None:
    wrong = [astray(p, HANDS[side], by_torsos) if 5 <= k < 20 else p for k, p in enumerate(POSES)]
    for true, held in zip(POSES, gripped_throughout(wrong), strict=True):
        assert np.linalg.norm(middle(held) - middle(true)) < 0.2 * torso_px(true)


def test_a_whole_arm_on_somebody_who_walks_by_does_not_drag_the_hands_along() -> None:
    """The stray hand moves away little by little, as a walker does."""
    wrong = [astray(p, LEFT_HAND, 0.4 + 0.05 * k) if k else p for k, p in enumerate(POSES)]
    last = list(gripped_throughout(wrong))[-1]
    assert np.array_equal(hand_px(last, LEFT_HAND), hand_px(POSES[-1], RIGHT_HAND))


def test_hands_that_are_apart_at_first_are_taken_as_they_are() -> None:
    first = astray(POSES[0], LEFT_HAND, 2.0)
    assert next(gripped_throughout([first])) is first


def test_the_hand_nearer_to_where_both_were_is_kept() -> None:
    pose = astray(POSES[0], RIGHT_HAND, 1.0)
    assert np.array_equal(
        hand_px(gripped(pose, hand_px(pose, RIGHT_HAND)), LEFT_HAND), hand_px(pose, RIGHT_HAND)
    )
