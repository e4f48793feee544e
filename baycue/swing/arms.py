"""Angles in the picture, counted as the shaft's angle is."""

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import Stance

FloatArray = NDArray[np.float64]

_TO_NOSE, _TO_HIPS = 0.3, 0.25
"""From the lead shoulder as drawn to where the arm turns, as shares of the ways to nose and middle
of the hips.  Turned under the chin the shoulder is drawn at the top of the sleeve, by another
amount in each swing; about this point an arm that is truly parallel reads within two degrees of -90
going back and coming down, and P3 and P5 spread by a quarter less than about the shoulder (5.4 to
3.9 and 4.6 to 3.3 ms, RMS on 170 random synthetic swings of the bench's seeds 6, 7 and 8)."""


def direction_deg(from_px: FloatArray, to_px: FloatArray, stance: Stance) -> FloatArray:
    """The angle (N,) of (N, 2) from-to directions, face-on: 0 down, +90 toward the target."""
    step = to_px - from_px
    return np.degrees(np.arctan2(step[..., 0] * stance.toward_target, step[..., 1]))


def lead_arm_deg(poses: tuple[Pose, ...], stance: Stance) -> FloatArray:
    """Lead shoulder to lead wrist per pose, (N,), unwrapped from address on."""
    return _to_wrist_deg([p.pixel(stance.lead.shoulder) for p in poses], poses, stance)


def turning_arm_deg(poses: tuple[Pose, ...], stance: Stance) -> FloatArray:
    """The same, (N,), from where the arm turns to the wrist; steadier than from the shoulder."""
    return _to_wrist_deg([_turns_about_px(p, stance) for p in poses], poses, stance)


def _turns_about_px(pose: Pose, stance: Stance) -> FloatArray:
    shoulder, nose = pose.pixel(stance.lead.shoulder), pose.pixel(Landmark.NOSE)
    hips = (pose.pixel(stance.lead.hip) + pose.pixel(stance.trail.hip)) / 2
    return np.asarray(shoulder + _TO_NOSE * (nose - shoulder) + _TO_HIPS * (hips - shoulder))


def _to_wrist_deg(
    starts_px: Sequence[FloatArray], poses: tuple[Pose, ...], stance: Stance
) -> FloatArray:
    wrists = np.array([p.pixel(stance.lead.wrist) for p in poses])
    return np.unwrap(direction_deg(np.array(starts_px), wrists, stance), period=360.0)
