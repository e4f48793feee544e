"""Where the hands are, measured in the golfer's own size so that distance does not matter."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.pose.grip import HandsSeen, gripped
from baycue.pose.pose import Landmark, Pose

FloatArray = NDArray[np.float64]

WRISTS = (Landmark.LEFT_WRIST, Landmark.RIGHT_WRIST)
_FINGERS = (Landmark.LEFT_INDEX, Landmark.RIGHT_INDEX)
SHOULDERS = (Landmark.LEFT_SHOULDER, Landmark.RIGHT_SHOULDER)
_HIPS = (Landmark.LEFT_HIP, Landmark.RIGHT_HIP)
_ANKLES = (Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)
_BEYOND_FINGERS = 0.6


@dataclass(frozen=True, slots=True)
class HandSample:
    """The hands in one frame.

    ``hands_px``: (2,) middle of the grip.  ``body_px``: ankle to hip to shoulder along the
    body, px, the unit of all distances here.  ``apart`` and ``below_shoulders``: wrist gap
    and drop from the shoulders, in body units.
    """

    stamp_ns: int
    hands_px: FloatArray
    body_px: float
    apart: float
    below_shoulders: float


@dataclass(frozen=True, slots=True)
class HandTrack:
    """The hands in N poses: ``hands_px`` (N, 2) and ``body_px`` (N,) as in ``HandSample``."""

    stamps_ns: NDArray[np.int64]
    hands_px: FloatArray
    body_px: FloatArray


def middle_px(pose: Pose, *landmarks: Landmark) -> FloatArray:
    """The mean (2,) of some landmarks, px."""
    return np.asarray(pose.pixels[list(landmarks)].mean(axis=0))


def grip_px(pose: Pose) -> FloatArray:
    """The middle of both hands on the grip, (2,) px.

    In fast, blurred frames the model draws the hands back along the forearms; carrying on
    from wrists through index fingers undoes most of it.
    """
    return _grip_px(pose.pixels)


def grips_px(poses: Sequence[Pose]) -> FloatArray:
    """``grip_px`` of each pose, (N, 2)."""
    return _grip_px(_pixels(poses))


def bodies_px(poses: Sequence[Pose]) -> FloatArray:
    """The body's length in each pose, ankle to hip to shoulder, (N,) px."""
    return _body_px(_pixels(poses))


def hand_track(poses: Sequence[Pose]) -> HandTrack:
    """The hands through some poses, at least one."""
    pixels, stamps_ns = _pixels(poses), np.array([p.stamp_ns for p in poses])
    return HandTrack(stamps_ns, _grip_px(pixels), _body_px(pixels))


def hand_sample(pose: Pose, seen: Sequence[HandsSeen] = ()) -> HandSample:
    """Reduce a pose to what the segmentation of swings looks at.

    ``seen``: where hands that hold a club were just before, in order of time; empty if it is
    not known that they hold one.
    """
    if seen:
        pose = gripped(pose, seen)
    unit, hands = float(_body_px(pose.pixels)), grip_px(pose)
    gap = np.linalg.norm(pose.pixel(Landmark.LEFT_WRIST) - pose.pixel(Landmark.RIGHT_WRIST))
    drop = float(hands[1] - _middle(pose.pixels, SHOULDERS)[1]) / unit
    return HandSample(pose.stamp_ns, hands, unit, float(gap) / unit, drop)


def _pixels(poses: Sequence[Pose]) -> FloatArray:
    """(N, 33, 2)."""
    return np.stack([p.pixels for p in poses])


def _middle(pixels: FloatArray, pair: tuple[Landmark, Landmark]) -> FloatArray:
    """Midway between two landmarks, (..., 2)."""
    left, right = pair
    return np.asarray((pixels[..., left, :] + pixels[..., right, :]) / 2)


def _grip_px(pixels: FloatArray) -> FloatArray:
    fingers = _middle(pixels, _FINGERS)
    return fingers + _BEYOND_FINGERS * (fingers - _middle(pixels, WRISTS))


def _body_px(pixels: FloatArray) -> FloatArray:
    shoulders, hips, ankles = (_middle(pixels, pair) for pair in (SHOULDERS, _HIPS, _ANKLES))
    trunk, legs = shoulders - hips, hips - ankles
    length = np.hypot(trunk[..., 0], trunk[..., 1]) + np.hypot(legs[..., 0], legs[..., 1])
    return np.asarray(np.maximum(length, 1.0))
