"""How the hands hold a club: where the wrists are for a club, and the club for a wrist.

Names are lead and trail; motion is a right-hander's, so lead is the body's own left.
"""

from dataclasses import dataclass
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.posture import Hand
from baycue.synthetic.rig import Rig
from baycue.synthetic.rotations import carry, cross, unit
from baycue.synthetic.scene import ClubPose

FloatArray = NDArray[np.float64]

ACROSS_PALM_DEG = 32.0
"""How far the grip runs off the line of the hand, toward the thumb."""
LEAD_GRIP_M, TRAIL_GRIP_M = 0.060, 0.135
"""Middle of each hand, from the butt of the club."""
PALM_DEPTH_M = 0.022
"""From the bones of the hand to the middle of the grip."""


@dataclass(frozen=True, slots=True, eq=False)
class ClubFrame:
    """Directions of a club: down the shaft, out of the face, and ``up`` square to both.

    At address ``up`` points up and away from the golfer: where the thumbs lie.
    """

    shaft: FloatArray
    face: FloatArray
    up: FloatArray


def club_frame(shaft: FloatArray, face: FloatArray) -> ClubFrame:
    """Square directions for a shaft (exact) and a face (made square to it)."""
    shaft = unit(shaft)
    face = unit(face - shaft * float(face @ shaft))
    return ClubFrame(shaft, face, cross(shaft, face))


def _hand_along(frame: ClubFrame) -> FloatArray:
    across = radians(ACROSS_PALM_DEG)
    return cos(across) * frame.shaft - sin(across) * frame.up


def _wrist_from_butt(rig: Rig, frame: ClubFrame, side: str) -> FloatArray:
    """(3,) from the butt to the wrist joint of the hand that holds it."""
    knuckle_m = 0.85 * rig.hands[side].knuckle_m
    grip_m, sign = (LEAD_GRIP_M, 1.0) if side == "l" else (TRAIL_GRIP_M, -1.0)
    out_of_grip = sign * PALM_DEPTH_M * frame.face
    return grip_m * frame.shaft - knuckle_m * _hand_along(frame) + out_of_grip


def club_in_lead_hand(rig: Rig, wrist_m: FloatArray, frame: ClubFrame, length_m: float) -> ClubPose:
    """The club held by a lead wrist at ``wrist_m``."""
    butt_m = wrist_m - _wrist_from_butt(rig, frame, "l")
    return ClubPose(butt_m, butt_m + length_m * frame.shaft, frame.face)


def frame_of(club: ClubPose) -> ClubFrame:
    """The directions of a club pose."""
    return club_frame(club.head_m - club.butt_m, club.face_normal)


def holding_hand(rig: Rig, club: ClubPose, side: str, elbow_pole: FloatArray) -> Hand:
    """The hand of one side, closed about the club."""
    frame, rest = frame_of(club), rig.hands[side]
    palm = -frame.face if side == "l" else frame.face
    turn = carry(rest.along, rest.palm, _hand_along(frame), palm)
    wrist_m = club.butt_m + _wrist_from_butt(rig, frame, side)
    return Hand(wrist_m, turn, elbow_pole)
