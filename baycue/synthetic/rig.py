"""The body's skeleton at rest: joints, directions and lengths that posing needs."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.rotations import cross, unit
from baycue.synthetic.scene import Body

FloatArray = NDArray[np.float64]

SIDES = ("l", "r")
FINGERS = ("index", "middle", "ring", "pinky")
HEAD_CENTRE_SHARE = 0.5
"""Ears stand about half-way up the head bone, from skull base to crown."""


@dataclass(frozen=True, slots=True, eq=False)
class LimbRest:
    """A limb at rest: lengths (m), directions, and the hinge of its middle joint."""

    upper_m: float
    lower_m: float
    upper: FloatArray
    lower: FloatArray
    hinge: FloatArray

    @property
    def length_m(self) -> float:
        """Both bones in line."""
        return self.upper_m + self.lower_m


@dataclass(frozen=True, slots=True, eq=False)
class HandRest:
    """A hand at rest: wrist to knuckle length, that direction, and out of the palm."""

    knuckle_m: float
    along: FloatArray
    palm: FloatArray


class Rig:
    """A body's rest skeleton; ``joint`` is a bone's head, in metres."""

    def __init__(self, body: Body) -> None:
        self.body = body
        self.index = {name: i for i, name in enumerate(body.bone_names)}
        self.heads_m: FloatArray = np.asarray(body.bone_rest[:, :3, 3], dtype=np.float64)
        self.turns: FloatArray = np.asarray(body.bone_rest[:, :3, :3], dtype=np.float64)
        self.hip_centre_m = (self.joint("thigh_l") + self.joint("thigh_r")) / 2
        self.arms = {side: self._arm(side) for side in SIDES}
        self.legs = {side: self._leg(side) for side in SIDES}
        self.hands = {side: self._hand(side) for side in SIDES}

    def joint(self, bone: str) -> FloatArray:
        """(3,) rest position of the head of a bone."""
        return np.asarray(self.heads_m[self.index[bone]])

    def offset(self, parent: str, child: str) -> FloatArray:
        """(3,) from one bone's head to another's, at rest."""
        return self.joint(child) - self.joint(parent)

    def head_centre_offset(self) -> FloatArray:
        """(3,) from the head joint to the middle of the head at ear level, at rest."""
        tail = np.asarray(self.body.bone_tails_m[self.index["head"]])
        return HEAD_CENTRE_SHARE * (tail - self.joint("head"))

    def _limb(self, bones: tuple[str, str, str], hinge: FloatArray | None) -> LimbRest:
        upper, lower = self.offset(*bones[:2]), self.offset(*bones[1:])
        return LimbRest(
            float(np.linalg.norm(upper)),
            float(np.linalg.norm(lower)),
            unit(upper),
            unit(lower),
            unit(cross(upper, lower)) if hinge is None else hinge,
        )

    def _arm(self, side: str) -> LimbRest:
        return self._limb((f"upperarm_{side}", f"lowerarm_{side}", f"hand_{side}"), None)

    def _leg(self, side: str) -> LimbRest:
        bones = (f"thigh_{side}", f"calf_{side}", f"foot_{side}")
        return self._limb(bones, np.array([1.0, 0.0, 0.0]))

    def _hand(self, side: str) -> HandRest:
        along = self.offset(f"hand_{side}", f"middle_01_{side}")
        thumb_side = self.offset(f"pinky_01_{side}", f"index_01_{side}")
        palm = cross(along, thumb_side) if side == "l" else cross(thumb_side, along)
        return HandRest(float(np.linalg.norm(along)), unit(along), unit(palm))
