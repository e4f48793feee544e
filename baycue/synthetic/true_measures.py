"""What is true of each measure at one instant, from bones and club.

Target-line axes, metres and degrees.  "Seen face-on" means in x and y alone, as a camera square to
the target line and far away sees it.  What is counted from address is 0 there.  The names are the
catalogue's; a test says so.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.rotations import angle_deg
from baycue.synthetic.scene import Body, ClubPose
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
    def body(self) -> Body:
        """Whose bones they are."""
        return self.skeleton.rig.body

    @property
    def shaft(self) -> FloatArray:
        """(3,) from butt to head of the club."""
        return self.club.head_m - self.club.butt_m


X, Y, Z = 0, 1, 2
_HEEL_DEPTH_M = 0.01

TrueReading = Callable[[Stand, Stand], float]
"""The value now, given now and address."""


def face_on_deg(way: FloatArray) -> float:
    """A direction seen face-on: degrees from straight down, + to the target, -180 to 180."""
    return float(np.degrees(np.arctan2(way[0], -way[1])))


def lead_arm_deg(now: Stand) -> float:
    """Lead shoulder to lead wrist, seen face-on."""
    return face_on_deg(now.joint("hand_l") - now.joint("upperarm_l"))


def wrist_angle_deg(now: Stand) -> float:
    """From the shaft to the lead forearm, seen face-on; 0 in line, -180 to 180."""
    forearm = face_on_deg(now.joint("hand_l") - now.joint("lowerarm_l"))
    return (forearm - face_on_deg(now.shaft) + 180.0) % 360.0 - 180.0


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


def lead_heel_m(now: Stand) -> FloatArray:
    """(3,) the back of the lead foot."""
    return now.joint("foot_l") + now.skeleton.turn_of("foot_l") @ _heel_from_ankle_m(now.body)


@lru_cache(maxsize=8)
def _heel_from_ankle_m(body: Body) -> FloatArray:
    """(3,) from the lead ankle to the rearmost skin of its foot, at rest."""
    foot = body.bone("foot_l")
    held = body.skin_bones[np.arange(len(body.skin_bones)), body.skin_weights.argmax(axis=1)]
    skin_m = body.vertices_m[held == foot]
    rearmost = skin_m[skin_m[:, 2] <= skin_m[:, 2].min() + _HEEL_DEPTH_M]
    return np.asarray(rearmost.mean(axis=0) - body.bone_rest[foot, :3, 3])


def _moved(of: Callable[[Stand], FloatArray], axis: int) -> TrueReading:
    """How far a point has gone along an axis since address."""
    return lambda now, address: float((of(now) - of(address))[axis])


def _past_heel(bone: str) -> TrueReading:
    """How far a middle is ahead of where the lead heel stood at address."""
    return lambda now, address: float((now.middle(bone) - lead_heel_m(address))[X])


def _now(of: Callable[[Stand], float]) -> TrueReading:
    return lambda now, _: of(now)


TRUE_READINGS: dict[str, TrueReading] = {
    "knee past ankle": _now(lambda s: float((s.joint("calf_l") - s.joint("foot_l"))[X])),
    "knee travel": _moved(lambda s: s.joint("calf_l"), X),
    "head rise": _moved(lambda s: head_centre(s.skeleton), Y),
    "head sway": _moved(lambda s: head_centre(s.skeleton), X),
    "upper centre": _moved(lambda s: s.middle("upperarm"), X),
    "lower centre": _moved(lambda s: s.middle("thigh"), X),
    "pelvis height": _moved(lambda s: s.middle("thigh"), Y),
    "upper centre past heel": _past_heel("upperarm"),
    "lower centre past heel": _past_heel("thigh"),
    "lead arm angle": _now(lambda s: lead_arm_deg(s) + 90.0),
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
    "lead heel height": _moved(lead_heel_m, Y),
    "lead knee bend": _now(knee_bend_deg),
    "hand path out": _moved(lambda s: s.middle("hand"), Z),
}
"""By measure; those of a swing as a whole stand in ``truth``."""
