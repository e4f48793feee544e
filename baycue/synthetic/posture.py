"""A posture in a few values: how trunk, feet and hands stand.

"l" and "r" are the body's own sides.
"""

from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.rig import SIDES
from baycue.synthetic.rotations import about_x, about_y, about_z

FloatArray = NDArray[np.float64]


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
