"""Where lead arm and club are: angles in two leaning planes about the lead shoulder.

The arm hangs from the lead shoulder in the arm plane, the shaft lies in the shaft plane.
Both contain the target line; a plane leaning at b degrees to the ground has the in-plane
directions along the target (1, 0, 0) and down (0, -sin b, cos b).
"""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.club_physics import Club
from baycue.synthetic.grip import ClubFrame, club_frame, club_in_lead_hand
from baycue.synthetic.rig import Rig
from baycue.synthetic.rotations import about_y
from baycue.synthetic.scene import ClubPose

FloatArray = NDArray[np.float64]

SOFT_ARM, STRAIGHT_ARM = 0.955, 0.988
"""The lead arm's length in use, of its full length: at address, and in the swing."""


@dataclass(frozen=True, slots=True)
class ArmAngles:
    """Where arm and shaft are, degrees: angles from down, the two planes, the club's roll.

    ``stretch`` is the share of the arm's length between shoulder and wrist.
    ``shaft_yaw_deg`` turns the shaft's plane about the vertical, + from -x toward +z, so that
    it no longer contains the target line.
    """

    arm_deg: float
    shaft_deg: float
    arm_plane_deg: float
    shaft_plane_deg: float
    roll_deg: float
    stretch: float = STRAIGHT_ARM
    shaft_yaw_deg: float = 0.0


def in_plane(angle_deg: float, plane_deg: float) -> FloatArray:
    """(3,) unit direction at an angle from straight down, + to the target, in a leaning plane."""
    angle, plane = radians(angle_deg), radians(plane_deg)
    down = np.array([0.0, -sin(plane), cos(plane)])
    return sin(angle) * np.array([1.0, 0.0, 0.0]) + cos(angle) * down


def frame_at(angles: ArmAngles) -> ClubFrame:
    """The club's directions; roll 0 has the face along the swing, 90 out of the plane."""
    plane, roll = radians(angles.shaft_plane_deg), radians(angles.roll_deg)
    shaft = in_plane(angles.shaft_deg, angles.shaft_plane_deg)
    along = in_plane(angles.shaft_deg + 90.0, angles.shaft_plane_deg)
    out = np.array([0.0, cos(plane), sin(plane)])
    face = cos(roll) * along + sin(roll) * out
    if angles.shaft_yaw_deg:
        turn = about_y(angles.shaft_yaw_deg)
        return club_frame(turn @ shaft, turn @ face)
    return club_frame(shaft, face)


def lead_wrist(rig: Rig, shoulder_m: FloatArray, angles: ArmAngles) -> FloatArray:
    """(3,) the lead wrist."""
    reach_m = angles.stretch * rig.arms["l"].length_m
    return shoulder_m + reach_m * in_plane(angles.arm_deg, angles.arm_plane_deg)


def held_club(rig: Rig, shoulder_m: FloatArray, angles: ArmAngles, club: Club) -> ClubPose:
    """The club in the lead hand."""
    wrist_m = lead_wrist(rig, shoulder_m, angles)
    return club_in_lead_hand(rig, wrist_m, frame_at(angles), club.length_m)
