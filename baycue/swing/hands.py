"""Where the hands are, measured in the golfer's own size so that distance does not matter."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.pose.grip import gripped
from baycue.pose.pose import Landmark, Pose

FloatArray = NDArray[np.float64]

SHOULDERS = (Landmark.LEFT_SHOULDER, Landmark.RIGHT_SHOULDER)
WRISTS = (Landmark.LEFT_WRIST, Landmark.RIGHT_WRIST)
_FINGERS = (Landmark.LEFT_INDEX, Landmark.RIGHT_INDEX)
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


def middle_px(pose: Pose, *landmarks: Landmark) -> FloatArray:
    """The mean (2,) of some landmarks, px."""
    return np.asarray(pose.pixels[list(landmarks)].mean(axis=0))


def grip_px(pose: Pose) -> FloatArray:
    """The middle of both hands on the grip, (2,) px.

    In fast, blurred frames the model draws the hands back along the forearms; carrying on
    from wrists through index fingers undoes most of it.
    """
    fingers = middle_px(pose, *_FINGERS)
    return fingers + _BEYOND_FINGERS * (fingers - middle_px(pose, *WRISTS))


def hand_sample(pose: Pose, expected_px: FloatArray | None = None) -> HandSample:
    """Reduce a pose to what the segmentation of swings looks at.

    ``expected_px``: (2,) where hands that hold a club are expected; None if it is not known
    that they hold one.
    """
    if expected_px is not None:
        pose = gripped(pose, expected_px)
    shoulders = middle_px(pose, *SHOULDERS)
    hips = middle_px(pose, Landmark.LEFT_HIP, Landmark.RIGHT_HIP)
    ankles = middle_px(pose, Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)
    body_px = float(np.linalg.norm(shoulders - hips) + np.linalg.norm(hips - ankles))
    hands = grip_px(pose)
    gap = np.linalg.norm(pose.pixel(Landmark.LEFT_WRIST) - pose.pixel(Landmark.RIGHT_WRIST))
    unit = max(body_px, 1.0)
    drop = float(hands[1] - shoulders[1]) / unit
    return HandSample(pose.stamp_ns, hands, unit, float(gap) / unit, drop)
