"""From a few posture values to every bone of the body.

Trunk first, from the hips up; then the legs down to the given ankles and the arms out to
the given wrists.  "l" and "r" are the body's own sides.
"""

from dataclasses import dataclass, field
from math import acos, radians

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.inverse_kinematics import (
    Limb,
    forward_at_x,
    middle_circle,
    soft_limit,
    toward,
)
from baycue.synthetic.rig import FINGERS, SIDES, LimbRest, Rig
from baycue.synthetic.rotations import (
    about_axis,
    about_x,
    about_y,
    about_z,
    angle_deg,
    between,
    carry,
    cross,
    twist_about,
    unit,
)

FloatArray = NDArray[np.float64]

EYE = np.eye(3)
SPINE = ("spine_01", "spine_02", "spine_03")
ARM_REACH = 0.972, 0.994
"""Shares of an arm's length: where the shoulder blade starts to help, and the most used."""
CLAVICLE_LIMIT = radians(34.0)
FINGER_BENDS_DEG, THUMB_BENDS_DEG = (65.0, 75.0, 45.0), (-30.0, 8.0, 8.0)
THUMB_ACROSS_DEG = 40.0
FOREARM_TWIST_SHARE = 0.55


@dataclass(frozen=True, slots=True)
class Turn:
    """An orientation: lean to -x, then bend forward, then turn toward +x, degrees."""

    turn_deg: float = 0.0
    bend_deg: float = 0.0
    side_deg: float = 0.0

    def matrix(self) -> FloatArray:
        """The rotation from standing upright facing +z."""
        return np.asarray(about_z(self.side_deg) @ about_x(self.bend_deg) @ about_y(self.turn_deg))


@dataclass(frozen=True, slots=True)
class ShoulderBlade:
    """A clavicle against the chest: forward and up, degrees."""

    forward_deg: float = 0.0
    up_deg: float = 0.0


@dataclass(frozen=True, slots=True, eq=False)
class Trunk:
    """Hips, chest and head."""

    hips_m: FloatArray
    pelvis: Turn
    chest: Turn
    head: Turn
    blades: dict[str, ShoulderBlade] = field(
        default_factory=lambda: {side: ShoulderBlade() for side in SIDES}
    )


@dataclass(frozen=True, slots=True, eq=False)
class Foot:
    """A foot turned by ``flare_deg`` toward +x, its heel up by ``heel_deg``.

    Both turns are about the joint of the toes, which stays at ``toe_m``.  The knee is put at
    ``knee_x_m`` if that is given, otherwise toward ``knee_yaw_deg`` from +z to +x.
    """

    toe_m: FloatArray
    flare_deg: float = 0.0
    heel_deg: float = 0.0
    knee_yaw_deg: float = 0.0
    knee_x_m: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Hand:
    """A wrist and the hand's rotation from rest; the elbow goes toward ``elbow_pole``.

    ``turn`` None lets the hand hang in line with the forearm.  ``curl`` closes the fingers,
    0 to 1.
    """

    wrist_m: FloatArray
    turn: FloatArray | None
    elbow_pole: FloatArray
    curl: float = 1.0


class Skeleton:
    """The bones as they are put in place, one after another."""

    def __init__(self, rig: Rig) -> None:
        self.rig = rig
        count = len(rig.body.bone_names)
        self.turns: FloatArray = np.tile(EYE, (count, 1, 1))
        self.heads_m: FloatArray = rig.heads_m.copy()

    def head_of(self, bone: str) -> FloatArray:
        """(3,) where a bone's head joint is now."""
        return np.asarray(self.heads_m[self.rig.index[bone]])

    def turn_of(self, bone: str) -> FloatArray:
        """(3, 3) how far a bone is turned from rest."""
        return np.asarray(self.turns[self.rig.index[bone]])

    def attach(self, bone: str, parent: str, turn: FloatArray) -> None:
        """Hang a bone on its parent where it grows, turned as said."""
        rig = self.rig
        here = self.head_of(parent) + self.turn_of(parent) @ rig.offset(parent, bone)
        self.place(bone, here, turn)

    def place(self, bone: str, head_m: FloatArray, turn: FloatArray) -> None:
        """Put a bone's head joint at a point, turned as said."""
        at = self.rig.index[bone]
        self.heads_m[at] = head_m
        self.turns[at] = turn

    def transforms(self) -> FloatArray:
        """(B, 4, 4) world transforms of the bones."""
        bones = np.tile(np.eye(4), (len(self.heads_m), 1, 1))
        bones[:, :3, :3] = self.turns @ self.rig.turns
        bones[:, :3, 3] = self.heads_m
        return bones


def put_trunk(rig: Rig, trunk: Trunk) -> Skeleton:
    """Everything from the pelvis to the head, with the shoulders."""
    skeleton = Skeleton(rig)
    pelvis, chest, head = (turn.matrix() for turn in (trunk.pelvis, trunk.chest, trunk.head))
    offset = rig.joint("pelvis") - rig.hip_centre_m
    skeleton.place("pelvis", trunk.hips_m + pelvis @ offset, pelvis)
    parent = "pelvis"
    for bone, share in zip(SPINE, (0.35, 0.7, 1.0), strict=True):
        skeleton.attach(bone, parent, between(pelvis, chest, share))
        parent = bone
    skeleton.attach("neck_01", "spine_03", between(chest, head, 0.5))
    skeleton.attach("head", "neck_01", head)
    for side in SIDES:
        _put_shoulder(skeleton, side, chest, trunk.blades[side])
    return skeleton


def _put_shoulder(skeleton: Skeleton, side: str, chest: FloatArray, blade: ShoulderBlade) -> None:
    sign = 1.0 if side == "l" else -1.0
    local = about_z(sign * blade.up_deg) @ about_y(-sign * blade.forward_deg)
    skeleton.attach(f"clavicle_{side}", "spine_03", chest @ local)
    skeleton.attach(f"upperarm_{side}", f"clavicle_{side}", chest)


def head_centre(skeleton: Skeleton) -> FloatArray:
    """(3,) middle of the head at ear level."""
    offset = skeleton.rig.head_centre_offset()
    return skeleton.head_of("head") + skeleton.turn_of("head") @ offset


def ankle_of(skeleton: Skeleton, side: str, foot: Foot) -> tuple[FloatArray, FloatArray]:
    """The ankle (3,) and the foot's rotation, with the heel raised about the planted toe."""
    to_toe = skeleton.rig.offset(f"foot_{side}", f"ball_{side}")
    turn = np.asarray(about_y(foot.flare_deg) @ about_x(foot.heel_deg))
    return foot.toe_m - turn @ to_toe, turn


def put_leg(skeleton: Skeleton, side: str, foot: Foot) -> None:
    """Thigh, calf and foot, hip to planted foot."""
    ankle_m, turn = ankle_of(skeleton, side, foot)
    skeleton.attach(f"thigh_{side}", "pelvis", EYE)
    rest = skeleton.rig.legs[side]
    hip_m = skeleton.head_of(f"thigh_{side}")
    circle = middle_circle(hip_m, ankle_m, rest.upper_m, rest.lower_m)
    if foot.knee_x_m is None:
        yaw = radians(foot.knee_yaw_deg)
        limb = toward(circle, np.array([np.sin(yaw), 0.0, np.cos(yaw)]))
    else:
        limb = forward_at_x(circle, foot.knee_x_m)
    _put_limb(skeleton, (f"thigh_{side}", f"calf_{side}"), rest, limb)
    skeleton.place(f"foot_{side}", limb.end_m, turn)
    skeleton.attach(f"ball_{side}", f"foot_{side}", about_y(foot.flare_deg))


def _put_limb(skeleton: Skeleton, bones: tuple[str, str], rest: LimbRest, limb: Limb) -> None:
    upper, lower = bones
    root_m = skeleton.head_of(upper)
    upper_turn = carry(rest.upper, rest.hinge, limb.middle_m - root_m, limb.hinge)
    lower_turn = carry(rest.lower, rest.hinge, limb.end_m - limb.middle_m, limb.hinge)
    skeleton.place(upper, root_m, upper_turn)
    skeleton.place(lower, limb.middle_m, lower_turn)


def put_arm(skeleton: Skeleton, side: str, hand: Hand) -> None:
    """Upper arm, forearm and hand, the shoulder blade helping where the arm is too short."""
    _reach_out(skeleton, side, hand.wrist_m)
    rest = skeleton.rig.arms[side]
    shoulder_m = skeleton.head_of(f"upperarm_{side}")
    circle = middle_circle(shoulder_m, hand.wrist_m, rest.upper_m, rest.lower_m)
    limb = toward(circle, hand.elbow_pole)
    _put_limb(skeleton, (f"upperarm_{side}", f"lowerarm_{side}"), rest, limb)
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
