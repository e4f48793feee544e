"""Arms from shoulder to a given wrist, the shoulder blade helping, and closed fingers."""

from math import acos, radians

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.inverse_kinematics import middle_circle, soft_limit, toward
from baycue.synthetic.posture import Hand
from baycue.synthetic.rig import FINGERS
from baycue.synthetic.rotations import about_axis, angle_deg, cross, twist_about, unit
from baycue.synthetic.skeleton import Skeleton, put_limb

FloatArray = NDArray[np.float64]

ARM_REACH = 0.972, 0.994
"""Shares of an arm's length: where the shoulder blade starts to help, and the most used."""
CLAVICLE_LIMIT = radians(34.0)
FINGER_BENDS_DEG, THUMB_BENDS_DEG = (65.0, 75.0, 45.0), (-30.0, 8.0, 8.0)
THUMB_ACROSS_DEG = 40.0
FOREARM_TWIST_SHARE = 0.55


def put_arm(skeleton: Skeleton, side: str, hand: Hand) -> None:
    """Upper arm, forearm and hand, the shoulder blade helping where the arm is too short."""
    _reach_out(skeleton, side, hand.wrist_m)
    rest = skeleton.rig.arms[side]
    shoulder_m = skeleton.head_of(f"upperarm_{side}")
    circle = middle_circle(shoulder_m, hand.wrist_m, rest.upper_m, rest.lower_m)
    limb = toward(circle, hand.elbow_pole)
    put_limb(skeleton, (f"upperarm_{side}", f"lowerarm_{side}"), rest, limb)
    forearm = skeleton.turn_of(f"lowerarm_{side}")
    turn = forearm if hand.turn is None else hand.turn
    along = unit(limb.end_m - limb.middle_m)
    twist = FOREARM_TWIST_SHARE * twist_about(along, np.asarray(turn @ forearm.T))
    forearm_turn = np.asarray(about_axis(along, twist) @ forearm)
    skeleton.place(f"lowerarm_{side}", limb.middle_m, forearm_turn)
    skeleton.place(f"hand_{side}", limb.end_m, turn)
    _put_fingers(skeleton, side, turn, hand.curl)


def _reach_out(skeleton: Skeleton, side: str, wrist_m: FloatArray) -> None:
    """Swing the clavicle so that the wrist is within the arm's reach, as far as a shoulder goes.

    The wanted distance shoulder to wrist bends over smoothly below the arm's full length,
    so that an elbow never snaps straight.
    """
    clavicle, shoulder = f"clavicle_{side}", f"upperarm_{side}"
    root_m, arm_m = skeleton.head_of(clavicle), skeleton.rig.arms[side].length_m
    blade, way = skeleton.head_of(shoulder) - root_m, wrist_m - root_m
    distance = float(np.linalg.norm(way - blade))
    wanted = arm_m * soft_limit(distance / arm_m, *ARM_REACH)
    if wanted >= distance:
        return
    blade_m, way_m = float(np.linalg.norm(blade)), float(np.linalg.norm(way))
    apart = (blade_m**2 + way_m**2 - wanted**2) / (2 * blade_m * way_m)
    needed = radians(angle_deg(blade, way)) - acos(max(-1.0, min(1.0, apart)))
    angle = CLAVICLE_LIMIT * soft_limit(needed / CLAVICLE_LIMIT, 0.6, 1.0)
    turn = about_axis(unit(cross(blade, way)), angle)
    skeleton.place(clavicle, root_m, np.asarray(turn @ skeleton.turn_of(clavicle)))
    skeleton.place(shoulder, root_m + turn @ blade, skeleton.turn_of(shoulder))


def _put_fingers(skeleton: Skeleton, side: str, turn: FloatArray, curl: float) -> None:
    rest = skeleton.rig.hands[side]
    closing = cross(rest.along, rest.palm)
    across = radians(THUMB_ACROSS_DEG * curl) * (-1.0 if side == "l" else 1.0)
    thumb_turn = np.asarray(turn @ about_axis(rest.palm, across))
    for finger in FINGERS:
        _put_finger(skeleton, f"{finger}_{{}}_{side}", turn, closing, FINGER_BENDS_DEG, curl)
    _put_finger(skeleton, f"thumb_{{}}_{side}", thumb_turn, closing, THUMB_BENDS_DEG, curl)


def _put_finger(
    skeleton: Skeleton,
    names: str,
    turn: FloatArray,
    closing: FloatArray,
    bends_deg: tuple[float, ...],
    curl: float,
) -> None:
    parent = f"hand_{names[-1]}"
    for joint, bend_deg in enumerate(bends_deg, start=1):
        turn = turn @ about_axis(closing, radians(bend_deg * curl))
        bone = names.format(f"{joint:02d}")
        skeleton.attach(bone, parent, turn)
        parent = bone
