"""Both hands hold the club: putting right a hand that the pose model has lost.

Behind the golfer's own arm, or where somebody walks by, the model now and then draws one arm
down the body or on the other person, as sure of it as ever.  A golfer who swings keeps both
hands on the grip, so of two hands drawn far apart the one that goes on from where the hands
just were is right, and the other is with it.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

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
"""On synthetic swings hands on one grip are drawn 0.13 of the torso's length apart, median; of all
frames 94 in 100 lie below 0.3, and beyond it most have lost a hand."""
_AHEAD_MOST = 2.0
"""For longer than that hands do not go straight on."""


@dataclass(frozen=True, slots=True)
class HandsSeen:
    """Where both hands were, (2,) px, and when."""

    stamp_ns: int
    place_px: FloatArray


def going_to_px(seen: Sequence[HandsSeen], stamp_ns: int) -> FloatArray:
    """Where hands seen at the last two moments (or one) of ``seen`` will be, (2,) px."""
    if len(seen) < 2:
        return seen[-1].place_px
    before, last = seen[-2], seen[-1]
    ahead = (stamp_ns - last.stamp_ns) / (last.stamp_ns - before.stamp_ns)
    return last.place_px + min(ahead, _AHEAD_MOST) * (last.place_px - before.place_px)


def gripped(pose: Pose, expected_px: FloatArray) -> Pose:
    """The pose with a hand that has left the grip put beside the other.

    ``expected_px``: (2,) where both hands are expected; the hand nearer to it is kept.
    """
    left, right = hand_px(pose, LEFT_HAND), hand_px(pose, RIGHT_HAND)
    if not _apart(pose.pixels, left, right):
        return pose
    left_nearer = np.linalg.norm(left - expected_px) < np.linalg.norm(right - expected_px)
    kept, lost = (LEFT_HAND, RIGHT_HAND) if left_nearer else (RIGHT_HAND, LEFT_HAND)
    pixels = pose.pixels.copy()
    pixels[list(lost)] = pixels[list(kept)]
    return replace(pose, pixels=pixels)


def gripped_throughout(poses: Iterable[Pose]) -> Iterator[Pose]:
    """Poses of a golfer who holds the club in all of them, in order of time."""
    poses = list(poses)
    if poses:
        pixels = np.stack([pose.pixels for pose in poses])
        left, right = _middle(pixels, LEFT_HAND), _middle(pixels, RIGHT_HAND)
        middles = (left + right) / 2
        for k in np.flatnonzero(_apart(pixels, left, right)).tolist():
            if k > 0:
                before = range(max(k - 2, 0), k)
                seen = [HandsSeen(poses[j].stamp_ns, middles[j]) for j in before]
                poses[k] = gripped(poses[k], going_to_px(seen, poses[k].stamp_ns))
                middles[k] = (hand_px(poses[k], LEFT_HAND) + hand_px(poses[k], RIGHT_HAND)) / 2
    yield from poses


def hand_px(pose: Pose, hand: tuple[Landmark, ...]) -> FloatArray:
    """The (2,) middle of a hand's landmarks, px."""
    return _middle(pose.pixels, hand)


def torso_px(pose: Pose) -> float:
    """Mid-shoulder to mid-hip, px."""
    return float(_torso_px(pose.pixels))


def _middle(pixels: FloatArray, hand: tuple[Landmark, ...]) -> FloatArray:
    """Of (..., 33, 2) landmarks the (..., 2) middle of a hand."""
    first, second, third, fourth = (pixels[..., landmark, :] for landmark in hand)
    return np.asarray((first + second + third + fourth) / 4)


def _torso_px(pixels: FloatArray) -> FloatArray:
    """Of (..., 33, 2) landmarks, (...)."""
    shoulders = pixels[..., Landmark.LEFT_SHOULDER, :] + pixels[..., Landmark.RIGHT_SHOULDER, :]
    hips = pixels[..., Landmark.LEFT_HIP, :] + pixels[..., Landmark.RIGHT_HIP, :]
    trunk = shoulders - hips
    return np.asarray(np.hypot(trunk[..., 0], trunk[..., 1]) / 2)


def _apart(pixels: FloatArray, left: FloatArray, right: FloatArray) -> NDArray[np.bool_]:
    """Whether two hands, (..., 2), are drawn further apart than on one grip."""
    between = left - right
    gap = np.hypot(between[..., 0], between[..., 1])
    return np.asarray(gap > _APART_MOST_TORSOS * _torso_px(pixels))
