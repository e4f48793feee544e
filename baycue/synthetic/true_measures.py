"""What is true of each measure at one instant, from bones and club.

Target-line axes, metres and degrees.  "Seen face-on" means in x and y alone, as a camera square to
the target line sees it; other gaps and angles are in space.  What is "against address" is 0 there.
The names are the catalogue's; a test says so.
"""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.rotations import angle_deg
from baycue.synthetic.scene import ClubPose
from baycue.synthetic.skeleton import Skeleton, head_centre

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class Stand:
    """The golfer and the club at an instant."""

    skeleton: Skeleton
    club: ClubPose

    def joint(self, bone: str) -> FloatArray:
        """(3,) where a bone's head joint is; ``_l`` leads, ``_r`` trails."""
        return self.skeleton.head_of(bone)

    def middle(self, bone: str) -> FloatArray:
        """(3,) half-way between both sides' joints of a bone."""
        return (self.joint(f"{bone}_l") + self.joint(f"{bone}_r")) / 2

    @property
    def shaft(self) -> FloatArray:
        """(3,) from butt to head of the club."""
        return self.club.head_m - self.club.butt_m


TrueReading = Callable[[Stand, Stand], float]
"""The value now, given now and address."""


def face_on_deg(way: FloatArray) -> float:
    """A direction seen face-on: degrees from straight down, + to the target, -180 to 180."""
    return float(np.degrees(np.arctan2(way[0], -way[1])))


def lead_arm_deg(now: Stand) -> float:
    """Lead shoulder to lead wrist, seen face-on."""
    return face_on_deg(now.joint("hand_l") - now.joint("upperarm_l"))


def wrist_angle_deg(now: Stand) -> float:
    """Between lead forearm and shaft in space; 0 in line."""
    return angle_deg(now.joint("hand_l") - now.joint("lowerarm_l"), now.shaft)


def knee_bend_deg(now: Stand) -> float:
    """Between lead thigh and lead shank in space; 0 straight."""
    thigh = now.joint("calf_l") - now.joint("thigh_l")
    return angle_deg(thigh, now.joint("foot_l") - now.joint("calf_l"))


def seen_m(from_m: FloatArray, to_m: FloatArray) -> float:
    """The distance seen face-on."""
    return float(np.linalg.norm((to_m - from_m)[:2]))


def beside_line_m(point_m: FloatArray, start_m: FloatArray, end_m: FloatArray) -> float:
    """How far a point is from the line between two others, seen face-on."""
    along, away = (end_m - start_m)[:2], (point_m - start_m)[:2]
    across = along[0] * away[1] - along[1] * away[0]
    return abs(float(across)) / float(np.linalg.norm(along))


def heel_m(now: Stand) -> float:
    """Height of the lead heel's lift: the ankle about the planted toes."""
    return float(now.joint("foot_l")[1])


def _moved(of: Callable[[Stand], FloatArray], axis: int) -> TrueReading:
    """How far a point has gone along an axis since address."""
    return lambda now, address: float((of(now) - of(address))[axis])


def _now(of: Callable[[Stand], float]) -> TrueReading:
    return lambda now, _: of(now)


X, Y, Z = 0, 1, 2
TRUE_READINGS: dict[str, TrueReading] = {
    "knee past ankle": _now(lambda s: float((s.joint("calf_l") - s.joint("foot_l"))[X])),
    "knee travel": _moved(lambda s: s.joint("calf_l"), X),
    "head rise": _moved(lambda s: head_centre(s.skeleton), Y),
    "head sway": _moved(lambda s: head_centre(s.skeleton), X),
    "upper centre": _moved(lambda s: s.middle("upperarm"), X),
    "lower centre": _moved(lambda s: s.middle("thigh"), X),
    "pelvis height": _moved(lambda s: s.middle("thigh"), Y),
    "lead arm angle": _now(lead_arm_deg),
    "wrist angle": _now(wrist_angle_deg),
    "butt to buckle": _now(lambda s: float((s.club.butt_m - s.middle("thigh"))[X])),
    "butt to trail thigh": _now(
        lambda s: beside_line_m(s.club.butt_m, s.joint("thigh_r"), s.joint("calf_r"))
    ),
    "trail elbow to side": _now(
        lambda s: beside_line_m(s.joint("lowerarm_r"), s.joint("upperarm_r"), s.joint("thigh_r"))
    ),
    "elbow separation": _now(lambda s: seen_m(s.joint("lowerarm_l"), s.joint("lowerarm_r"))),
    "hand path radius": _now(lambda s: seen_m(s.middle("upperarm"), s.middle("hand"))),
    "handle lean": _now(lambda s: -face_on_deg(s.shaft)),
    "lead heel height": lambda now, address: heel_m(now) - heel_m(address),
    "lead knee bend": _now(knee_bend_deg),
    "hand path out": _moved(lambda s: s.middle("hand"), Z),
}
"""By measure; tempo alone is of the whole swing and stands in ``truth``."""
