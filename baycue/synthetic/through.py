"""Hands and club from just past P8 to the finish."""

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arm_angles import ArmAngles, frame_at, lead_wrist
from baycue.synthetic.arm_motion import ArmMotion
from baycue.synthetic.body_motion import BodyMotion
from baycue.synthetic.club_physics import Downswing
from baycue.synthetic.curves import Curve, Handover
from baycue.synthetic.hold import Held, mid_shoulder
from baycue.synthetic.inverse_kinematics import soft_limit
from baycue.synthetic.phases import Phases
from baycue.synthetic.rig import Rig
from baycue.synthetic.skeleton import Skeleton

FloatArray = NDArray[np.float64]

FINISH_SHARE = 0.80
"""The hands are home before the body: this share of P8 to finish."""
# Hands from mid-shoulder, as shares of an arm's length (world axes), and the shaft's way.
HANDS_VIA = np.array([[0.88, 0.15, -0.02], [0.66, 0.56, -0.22]])
VIA_SHARES = (0.14, 0.34)
HANDS_HOME = np.array([0.36, 0.62, -0.42])
SHAFT_HOME_DEG, SHAFT_HOME_PLANE_DEG = 288.0, 112.0


class Through:
    """Hands and club from P8 to the finish, taking over position and speed at P8."""

    def __init__(
        self,
        rig: Rig,
        body: BodyMotion,
        arms: ArmMotion,
        down: Downswing,
        phases: Phases,
    ) -> None:
        start, home = phases.p8_s, phases.p8_s + FINISH_SHARE * (phases.finish_s - phases.p8_s)
        arm_m = rig.arms["l"].length_m

        def hands(time_s: float) -> FloatArray:
            skeleton = body.trunk_at(time_s)
            wrist_m = lead_wrist(rig, skeleton.head_of("upperarm_l"), arms.angles_at(time_s))
            return wrist_m - mid_shoulder(skeleton)

        step = 1e-5
        rate = (hands(start) - hands(start - step)) / step
        points = np.array([hands(start), *(arm_m * HANDS_VIA), arm_m * HANDS_HOME])
        via = [start + share * (home - start) for share in VIA_SHARES]
        self._hands = Handover([start, *via, home], points, rate)
        self._radius_m = float(np.linalg.norm(points[0]))
        shaft_rate = down.shaft_rate_deg_s(start - phases.top_s)
        swing_s = min(home - start, 2.8 * (SHAFT_HOME_DEG - 90.0) / shaft_rate)
        self._shaft = Handover(
            [start, start + swing_s],
            np.array([[90.0], [SHAFT_HOME_DEG]]),
            np.array([shaft_rate]),
        )
        before = arms.angles_at(start)
        self._plane = Curve(
            [start, home], np.array([[before.shaft_plane_deg], [SHAFT_HOME_PLANE_DEG]])
        )
        self._roll = before.roll_deg

    def __call__(self, time_s: float, skeleton: Skeleton) -> Held:
        """The lead wrist and club directions at a time after P8."""
        shaft, plane = float(self._shaft(time_s)[0]), float(self._plane(time_s)[0])
        frame = frame_at(ArmAngles(0.0, shaft, 0.0, plane, self._roll))
        return Held(mid_shoulder(skeleton) + self._reachable(time_s), frame)

    def _reachable(self, time_s: float) -> FloatArray:
        """Hands from mid-shoulder, hardly further out than they were at P8."""
        hands = self._hands(time_s)
        share = float(np.linalg.norm(hands)) / self._radius_m
        return np.asarray(hands * soft_limit(share, 1.0, 1.04) / share)
