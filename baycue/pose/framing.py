"""Does the picture hold the whole golfer?"""

from enum import Enum

import numpy as np

from baycue.pose.pose import Landmark, Pose

_EDGE_SHARE = 0.01
"""Landmarks this near the edge, of the picture's height, count as cut off."""


class BodyPart(Enum):
    """The parts that have to be in the picture."""

    HEAD = "head"
    HANDS = "hands"
    FEET = "feet"


_LANDMARKS = {
    BodyPart.HEAD: slice(Landmark.NOSE, Landmark.MOUTH_RIGHT + 1),
    BodyPart.HANDS: slice(Landmark.LEFT_WRIST, Landmark.RIGHT_THUMB + 1),
    BodyPart.FEET: slice(Landmark.LEFT_ANKLE, Landmark.RIGHT_FOOT_INDEX + 1),
}


def parts_cut_off(pose: Pose, width_px: int, height_px: int) -> frozenset[BodyPart]:
    """The parts with a landmark outside the picture or within 1 % of its edge."""
    margin_px = _EDGE_SHARE * height_px
    low = np.array([margin_px, margin_px])
    high = np.array([width_px, height_px]) - margin_px
    outside = np.any((pose.pixels < low) | (pose.pixels > high), axis=1)
    return frozenset(part for part, where in _LANDMARKS.items() if np.any(outside[where]))
