"""Both hands hold the club: putting right a hand that the pose model has lost.

Behind the golfer's own arm, or where somebody walks by, the model now and then draws one arm
down the body or on the other person, as sure of it as ever.  A golfer who swings keeps both
hands on the grip, so of two hands drawn far apart the one that goes on from where the hands
just were is right, and the other is with it.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from baycue.pose.pose import FloatArray, Landmark, Pose

LEFT_HAND = (
    Landmark.LEFT_WRIST,
    Landmark.LEFT_PINKY,
    Landmark.LEFT_INDEX,
    Landmark.LEFT_THUMB,
)
RIGHT_HAND = (
    Landmark.RIGHT_WRIST,
    Landmark.RIGHT_PINKY,
    Landmark.RIGHT_INDEX,
    Landmark.RIGHT_THUMB,
)
_APART_MOST_TORSOS = 0.32
"""Hands on one grip are drawn 0.13 of the torso's length apart, median, and 95 in 100 less than
this; seen on synthetic swings."""


def gripped(pose: Pose, hands_before_px: FloatArray) -> Pose:
    """The pose with a hand that has left the grip put beside the other.

    ``hands_before_px``: (2,) where both hands were just before.
    """
    left, right = hand_px(pose, LEFT_HAND), hand_px(pose, RIGHT_HAND)
    if np.linalg.norm(left - right) <= _APART_MOST_TORSOS * torso_px(pose):
        return pose
    left_nearer = np.linalg.norm(left - hands_before_px) < np.linalg.norm(right - hands_before_px)
    kept, lost = (LEFT_HAND, RIGHT_HAND) if left_nearer else (RIGHT_HAND, LEFT_HAND)
    pixels = pose.pixels.copy()
    pixels[list(lost)] = pixels[list(kept)]
    return replace(pose, pixels=pixels)


def gripped_throughout(poses: Iterable[Pose]) -> Iterator[Pose]:
    """Poses of a golfer who holds the club in all of them, in order of time."""
    before_px: FloatArray | None = None
    for pose in poses:
        held = pose if before_px is None else gripped(pose, before_px)
        before_px = (hand_px(held, LEFT_HAND) + hand_px(held, RIGHT_HAND)) / 2
        yield held


def hand_px(pose: Pose, hand: tuple[Landmark, ...]) -> FloatArray:
    """The (2,) middle of a hand's landmarks, px."""
    return np.asarray(pose.pixels[list(hand)].mean(axis=0))


def torso_px(pose: Pose) -> float:
    """Mid-shoulder to mid-hip, px."""
    shoulders = pose.pixels[[Landmark.LEFT_SHOULDER, Landmark.RIGHT_SHOULDER]].mean(axis=0)
    hips = pose.pixels[[Landmark.LEFT_HIP, Landmark.RIGHT_HIP]].mean(axis=0)
    return float(np.linalg.norm(shoulders - hips))
