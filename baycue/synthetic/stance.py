"""A body key standing on its feet, and keys changed so that legs, knee and head can be there."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.body_keys import BodyKey
from baycue.synthetic.curves import solve
from baycue.synthetic.inverse_kinematics import middle_circle, swing_share
from baycue.synthetic.posture import Foot
from baycue.synthetic.rig import Rig
from baycue.synthetic.rotations import about_y
from baycue.synthetic.skeleton import Skeleton, ankle_of, head_centre, put_leg, put_trunk

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Stance:
    """Where the feet stand: half the distance between the ankles, and how far they flare."""

    half_width_m: float
    lead_flare_deg: float = 22.0
    trail_flare_deg: float = -8.0

    def lead_ankle(self, rig: Rig) -> FloatArray:
        """(3,) the lead (left) ankle, metres."""
        return np.array([self.half_width_m, rig.joint("foot_l")[1], 0.0])

    def toe(self, rig: Rig, side: str) -> FloatArray:
        """(3,) the joint of the toes of a side."""
        sign, flare = (1.0, self.lead_flare_deg) if side == "l" else (-1.0, self.trail_flare_deg)
        ankle = np.array([sign * self.half_width_m, rig.joint(f"foot_{side}")[1], 0.0])
        return ankle + about_y(flare) @ rig.offset(f"foot_{side}", f"ball_{side}")

    def feet(self, rig: Rig, key: BodyKey) -> dict[str, Foot]:
        """Both feet, by the body's own side."""
        knee_x_m = self.half_width_m + key.lead_knee_past_m
        return {
            "l": Foot(self.toe(rig, "l"), self.lead_flare_deg, knee_x_m=knee_x_m),
            "r": Foot(
                self.toe(rig, "r"),
                key.trail_foot_yaw_deg,
                key.trail_heel_deg,
                key.trail_knee_yaw_deg,
            ),
        }


def overreach_m(rig: Rig, stance: Stance, key: BodyKey, share: float) -> float:
    """How far the longer leg's hip-to-ankle distance exceeds ``share`` of the leg."""
    skeleton = put_trunk(rig, key.trunk(rig))
    excess = []
    for side, foot in stance.feet(rig, key).items():
        ankle_m, _ = ankle_of(skeleton, side, foot)
        offset = rig.offset("pelvis", f"thigh_{side}")
        hip_m = skeleton.head_of("pelvis") + skeleton.turn_of("pelvis") @ offset
        excess.append(float(np.linalg.norm(hip_m - ankle_m)) - share * rig.legs[side].length_m)
    return max(excess)


def lead_knee_share(rig: Rig, stance: Stance, key: BodyKey) -> float:
    """How much of its sideways range the lead knee needs; -1 to 1 is in reach."""
    skeleton = put_trunk(rig, key.trunk(rig))
    foot, leg = stance.feet(rig, key)["l"], rig.legs["l"]
    hip_m = skeleton.head_of("pelvis") + skeleton.turn_of("pelvis") @ rig.offset(
        "pelvis", "thigh_l"
    )
    circle = middle_circle(hip_m, ankle_of(skeleton, "l", foot)[0], leg.upper_m, leg.lower_m)
    return swing_share(circle, stance.half_width_m + key.lead_knee_past_m)


def with_bent_legs(rig: Rig, stance: Stance, key: BodyKey, share: float) -> BodyKey:
    """The key with the hips lowered until neither leg is straighter than ``share``."""
    for _ in range(8):
        excess_m = overreach_m(rig, stance, key, share)
        if excess_m <= 1e-4:
            break
        key = replace(key, hips_drop_m=key.hips_drop_m + 1.05 * excess_m)
    return key


def standing(rig: Rig, stance: Stance, key: BodyKey) -> Skeleton:
    """Trunk and legs of a key, arms still to be put."""
    skeleton = put_trunk(rig, key.trunk(rig))
    for side, foot in stance.feet(rig, key).items():
        put_leg(skeleton, side, foot)
    return skeleton


def head_of_key(rig: Rig, key: BodyKey) -> FloatArray:
    """(3,) head centre of a key."""
    return head_centre(put_trunk(rig, key.trunk(rig)))


def with_head_at(rig: Rig, key: BodyKey, head_m: FloatArray) -> BodyKey:
    """The key with chest bend, chest lean and hip depth changed so that the head is there.

    Raises ValueError if the spine cannot bring it there.
    """

    def changed(values: FloatArray) -> BodyKey:
        return replace(
            key,
            chest_bend_deg=float(values[0]),
            chest_side_deg=float(values[1]),
            hips_z_m=float(values[2]),
        )

    def miss(values: FloatArray) -> FloatArray:
        return head_of_key(rig, changed(values)) - head_m

    start = [key.chest_bend_deg, key.chest_side_deg, key.hips_z_m]
    return changed(solve(miss, start, f"the head cannot be at {head_m.round(3)}"))
