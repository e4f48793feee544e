"""Hands that hold one club stay together, whatever the pose model says of one of them."""

from dataclasses import replace

import numpy as np
import pytest

from baycue.pose.grip import (
    LEFT_HAND,
    RIGHT_HAND,
    HandsSeen,
    going_to_px,
    gripped,
    gripped_throughout,
    hand_px,
    torso_px,
)
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


def seen_at(*places_px: tuple[float, float]) -> list[HandsSeen]:
    """Every 10 ms."""
    return [HandsSeen(10_000_000 * k, np.array(place)) for k, place in enumerate(places_px)]


@pytest.mark.parametrize("side", HANDS)
def test_the_hand_nearer_to_where_both_were_is_kept(side: str) -> None:
    pose = astray(POSES[0], RIGHT_HAND, 1.0)
    right = hand_px(pose, HANDS[side])
    held = gripped(pose, [HandsSeen(0, right)])
    assert all(np.array_equal(hand_px(held, hand), right) for hand in HANDS.values())


def test_of_hands_equally_likely_the_one_that_the_model_is_surer_of_is_kept() -> None:
    pose = astray(POSES[0], RIGHT_HAND, 1.0)
    seen = [HandsSeen(0, middle(pose))]
    for sure, unsure in ((LEFT_HAND, RIGHT_HAND), (RIGHT_HAND, LEFT_HAND)):
        visibility = pose.visibility.copy()
        visibility[list(sure)], visibility[list(unsure)] = 0.99, 0.6
        held = gripped(replace(pose, visibility=visibility), seen)
        assert np.array_equal(hand_px(held, unsure), hand_px(pose, sure))


@pytest.mark.parametrize("stays", HANDS)
def test_a_hand_that_all_at_once_stays_is_somebody_elses(stays: str) -> None:
    """It lies a little nearer to where the hands should be than the one that goes on too far."""
    pose = replace(POSES[0], stamp_ns=20_000_000)
    shoulders = (pose.pixel(Landmark.LEFT_SHOULDER) + pose.pixel(Landmark.RIGHT_SHOULDER)) / 2
    here, step = middle(pose), np.array([0.4 * torso_px(pose), 0.0])
    seen = [HandsSeen(0, here - step), HandsSeen(10_000_000, here)]
    way = going_to_px(seen, pose.stamp_ns, shoulders) - here
    pixels = pose.pixels.copy()
    for side, hand in HANDS.items():
        pixels[list(hand)] = here + (0.45 if side == stays else 1.6) * way
    held = gripped(replace(pose, pixels=pixels), seen)
    assert middle(held) == pytest.approx(here + 1.6 * way)


def test_a_body_without_length_has_a_hand_kept_too() -> None:
    """The model may draw anything; shoulders on the hips must not end the session."""
    pixels = np.zeros((33, 2))
    pixels[list(LEFT_HAND)] = 50.0
    flat = replace(POSES[0], pixels=pixels)
    held = gripped(flat, seen_at((0, 0), (5, 5)))
    assert np.array_equal(hand_px(held, LEFT_HAND), hand_px(held, RIGHT_HAND))


def test_hands_go_on_round_the_shoulders() -> None:
    """A quarter of a turn down, another after as long again: then over on the other side."""
    seen = seen_at((100, 0), (0, 100))
    assert going_to_px(seen, 20_000_000, np.zeros(2)) == pytest.approx([-100, 0])
    assert going_to_px(seen, 15_000_000, np.zeros(2)) == pytest.approx([-70.7, 70.7], abs=0.1)


def test_the_way_round_is_the_short_one_also_past_where_directions_begin_again() -> None:
    seen = seen_at((-98.5, 17.4), (-98.5, -17.4))
    assert going_to_px(seen, 20_000_000, np.zeros(2)) == pytest.approx([-86.6, -50.0], abs=0.2)


def test_hands_are_not_expected_far_ahead_nor_beyond_the_shoulders() -> None:
    seen = seen_at((0, 100), (0, 60))
    late = going_to_px(seen, 1_000_000_000, np.zeros(2))
    assert late == pytest.approx([0, 0])
    turning = seen_at((100, 0), (98.5, 17.4))
    assert going_to_px(turning, 1_000_000_000, np.zeros(2)) == pytest.approx([86.6, 50], abs=0.2)


def test_hands_seen_once_stay_where_they_were() -> None:
    assert going_to_px(seen_at((7, 8)), 50_000_000, np.zeros(2)) == pytest.approx([7, 8])
