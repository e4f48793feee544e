"""Angles in the picture, counted as the shaft's angle is."""

import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import Pose
from baycue.pose.sides import Stance

FloatArray = NDArray[np.float64]


def direction_deg(from_px: FloatArray, to_px: FloatArray, stance: Stance) -> FloatArray:
    """The angle (N,) of (N, 2) from-to directions, face-on: 0 down, +90 toward the target."""
    step = to_px - from_px
    return np.degrees(np.arctan2(step[..., 0] * stance.toward_target, step[..., 1]))


def lead_arm_deg(poses: tuple[Pose, ...], stance: Stance) -> FloatArray:
    """Lead shoulder to lead wrist per pose, (N,), unwrapped from address on."""
    shoulders = np.array([p.pixel(stance.lead.shoulder) for p in poses])
    wrists = np.array([p.pixel(stance.lead.wrist) for p in poses])
    return np.unwrap(direction_deg(shoulders, wrists, stance), period=360.0)
