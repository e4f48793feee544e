"""Both arms reaching for the club."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arms import put_arm
from baycue.synthetic.grip import ClubFrame, club_in_lead_hand, holding_hand
from baycue.synthetic.scene import ClubPose
from baycue.synthetic.skeleton import Skeleton

FloatArray = NDArray[np.float64]

ELBOW_POLES = {"l": np.array([0.45, -0.75, -0.25]), "r": np.array([-0.25, -0.75, -0.60])}
"""Where elbows point in the chest's own axes: down, out and a little back."""


@dataclass(frozen=True, slots=True, eq=False)
class Held:
    """A lead wrist, (3,) metres, and the directions of the club in it."""

    wrist_m: FloatArray
    frame: ClubFrame


def hold(skeleton: Skeleton, held: Held, length_m: float) -> ClubPose:
    """Put both arms to the club and say where it is."""
    club = club_in_lead_hand(skeleton.rig, held.wrist_m, held.frame, length_m)
    for side in ELBOW_POLES:
        put_arm(skeleton, side, holding_hand(skeleton.rig, club, side, elbow_pole(skeleton, side)))
    return club


def elbow_pole(skeleton: Skeleton, side: str) -> FloatArray:
    """(3,) the world direction in which a side's elbow points."""
    return np.asarray(skeleton.turn_of("spine_03") @ ELBOW_POLES[side])


def mid_shoulder(skeleton: Skeleton) -> FloatArray:
    """(3,) half-way between the shoulder joints."""
    return (skeleton.head_of("upperarm_l") + skeleton.head_of("upperarm_r")) / 2
