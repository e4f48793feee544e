"""A made-up swing told by two angles over time, from which tests make hands, poses and pictures.

The backswing is a minimum-jerk reach (Flash & Hogan 1985; from memory), the downswing the
two-link model of ``baycue.synthetic.two_link`` started and released so that arm and shaft
reach the ball together, and the follow-through dies away exponentially.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from scipy.optimize import brentq

from baycue.synthetic.two_link import Drive, Links, Start, constant_torque, swing_links

FloatArray = NDArray[np.float64]

ADDRESS_ARM_DEG, ADDRESS_SHAFT_DEG = -12.0, -4.0
TOP_ARM_DEG, TOP_SHAFT_DEG = -140.0, -230.0
BACKSWING_S = 0.85
_END_SHAFT_DEG = 150.0
_STEP_S = 2.5e-4
_BEFORE_S, _AFTER_S = 2.5, 3.0
_ARM_DIES_S, _SHAFT_DIES_S = 0.05, 0.15


def minimum_jerk(share: FloatArray) -> FloatArray:
    """0 to 1 as ``share`` of the time goes from 0 to 1, at rest at both ends."""
    s = np.clip(share, 0.0, 1.0)
    return np.asarray(10 * s**3 - 15 * s**4 + 6 * s**5)


@dataclass(frozen=True, slots=True, eq=False)
class CannedSwing:
    """Arm and shaft angle, deg, at ``times_s`` counted from the top (all (N,)).

    Angles are counted as the shaft's: 0 down, +90 toward the target.
    """

    times_s: FloatArray
    arm: FloatArray
    shaft: FloatArray

    @property
    def takeaway_s(self) -> float:
        """When the hands begin to leave the ball."""
        return -BACKSWING_S

    def arm_deg(self, time_s: float | FloatArray) -> FloatArray:
        """Lead-arm angle; held still outside the times."""
        return np.asarray(np.interp(time_s, self.times_s, self.arm))

    def shaft_deg(self, time_s: float | FloatArray) -> FloatArray:
        """Shaft angle; held still outside the times."""
        return np.asarray(np.interp(time_s, self.times_s, self.shaft))

    def shaft_rate_deg_s(self, time_s: float | FloatArray) -> FloatArray:
        """How fast the shaft turns."""
        h = 2 * _STEP_S
        ahead, behind = self.shaft_deg(time_s + h), self.shaft_deg(time_s - h)
        return np.asarray((ahead - behind) / (2 * h))

    def when_shaft(self, angle_deg: float, after_s: float, before_s: float) -> float:
        """When the shaft passes an angle that it passes once between two times."""
        return crossing_of(lambda t: float(self.shaft_deg(t)) - angle_deg, after_s, before_s)

    def when_arm(self, angle_deg: float, after_s: float, before_s: float) -> float:
        """When the arm passes an angle that it passes once between two times."""
        return crossing_of(lambda t: float(self.arm_deg(t)) - angle_deg, after_s, before_s)


def crossing_of(gap: Callable[[float], float], after_s: float, before_s: float) -> float:
    """Where a function of time passes zero."""
    return float(brentq(gap, after_s, before_s, xtol=1e-7))


@lru_cache(maxsize=1)
def canned_swing() -> CannedSwing:
    """The swing; its top is at time 0, its downswing takes about a third of a second."""
    drive = Drive(constant_torque(100.0), release_arm_deg=-100.0, wrist_nm=20.0)
    start = Start(TOP_ARM_DEG, TOP_SHAFT_DEG - TOP_ARM_DEG)
    links = swing_links(Links(), start, drive, _END_SHAFT_DEG)
    times = np.arange(-_BEFORE_S, _AFTER_S, _STEP_S)
    back = minimum_jerk((times + BACKSWING_S) / BACKSWING_S)
    down = np.degrees([links.state_at(float(t)) for t in times if 0 <= t <= links.end_s])
    end = np.degrees(links.state_at(links.end_s))
    late = times[times > links.end_s] - links.end_s
    arm_after = end[0] + end[2] * _ARM_DIES_S * (1 - np.exp(-late / _ARM_DIES_S))
    shaft_after = end[1] + end[3] * _SHAFT_DIES_S * (1 - np.exp(-late / _SHAFT_DIES_S))
    arm_back = ADDRESS_ARM_DEG + (TOP_ARM_DEG - ADDRESS_ARM_DEG) * back[times < 0]
    shaft_back = ADDRESS_SHAFT_DEG + (TOP_SHAFT_DEG - ADDRESS_SHAFT_DEG) * back[times < 0]
    arm = np.concatenate([arm_back, down[:, 0], arm_after])
    shaft = np.concatenate([shaft_back, down[:, 1], shaft_after])
    return CannedSwing(times, arm, shaft)
