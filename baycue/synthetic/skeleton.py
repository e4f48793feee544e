"""From posture values to bones: trunk first, from the hips up, then the legs.

"l" and "r" are the body's own sides.
"""

from math import radians

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.inverse_kinematics import Limb, forward_at_x, middle_circle, toward
from baycue.synthetic.posture import Foot, ShoulderBlade, Trunk
from baycue.synthetic.rig import SIDES, LimbRest, Rig
from baycue.synthetic.rotations import about_x, about_y, about_z, between, carry

FloatArray = NDArray[np.float64]

EYE = np.eye(3)
SPINE = ("spine_01", "spine_02", "spine_03")


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
    put_limb(skeleton, (f"thigh_{side}", f"calf_{side}"), rest, limb)
    skeleton.place(f"foot_{side}", limb.end_m, turn)
    skeleton.attach(f"ball_{side}", f"foot_{side}", about_y(foot.flare_deg))


def put_limb(skeleton: Skeleton, bones: tuple[str, str], rest: LimbRest, limb: Limb) -> None:
    """Turn the two bones of a solved limb from rest into place."""
    upper, lower = bones
    root_m = skeleton.head_of(upper)
    upper_turn = carry(rest.upper, rest.hinge, limb.middle_m - root_m, limb.hinge)
    lower_turn = carry(rest.lower, rest.hinge, limb.end_m - limb.middle_m, limb.hinge)
    skeleton.place(upper, root_m, upper_turn)
    skeleton.place(lower, limb.middle_m, lower_turn)
