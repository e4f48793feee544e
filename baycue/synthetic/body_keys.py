"""The golfer's body at one key moment of the swing, as numbers a curve can run through."""

from dataclasses import astuple, dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.posture import ShoulderBlade, Trunk, Turn
from baycue.synthetic.rig import Rig

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class BodyKey:
    """Metres and degrees, in world axes; turns as in ``posture.Turn``.

    ``hips_*_m``: middle of the hips, height as a drop from standing tall.
    ``lead_knee_past_m``: lead knee ahead of lead ankle along x.
    """

    hips_x_m: float = 0.0
    hips_drop_m: float = 0.05
    hips_z_m: float = -0.12
    pelvis_turn_deg: float = 0.0
    pelvis_bend_deg: float = 24.0
    pelvis_side_deg: float = 0.0
    chest_turn_deg: float = 0.0
    chest_bend_deg: float = 36.0
    chest_side_deg: float = 5.0
    head_turn_deg: float = 0.0
    head_bend_deg: float = 50.0
    head_side_deg: float = 0.0
    lead_blade_forward_deg: float = 4.0
    lead_blade_up_deg: float = 1.0
    trail_blade_forward_deg: float = 6.0
    trail_blade_up_deg: float = -2.0
    lead_knee_past_m: float = 0.0
    trail_knee_yaw_deg: float = -12.0
    trail_foot_yaw_deg: float = -8.0
    trail_heel_deg: float = 0.0

    def vector(self) -> FloatArray:
        """The (20,) numbers, in order."""
        return np.array(astuple(self), dtype=np.float64)

    def trunk(self, rig: Rig) -> Trunk:
        """Hips, chest and head of it."""
        standing_m = float(rig.hip_centre_m[1])
        return Trunk(
            np.array([self.hips_x_m, standing_m - self.hips_drop_m, self.hips_z_m]),
            Turn(self.pelvis_turn_deg, self.pelvis_bend_deg, self.pelvis_side_deg),
            Turn(self.chest_turn_deg, self.chest_bend_deg, self.chest_side_deg),
            Turn(self.head_turn_deg, self.head_bend_deg, self.head_side_deg),
            {
                "l": ShoulderBlade(self.lead_blade_forward_deg, self.lead_blade_up_deg),
                "r": ShoulderBlade(self.trail_blade_forward_deg, self.trail_blade_up_deg),
            },
        )


def key_from(vector: FloatArray) -> BodyKey:
    """The key of (20,) numbers."""
    return BodyKey(*(float(v) for v in vector))
