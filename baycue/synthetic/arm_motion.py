"""Lead arm and club from address to just past P8, hung from the moving lead shoulder."""

from dataclasses import replace
from math import cos, pi, radians, sin

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arm_angles import SOFT_ARM, STRAIGHT_ARM, ArmAngles, held_club
from baycue.synthetic.body_motion import BodyMotion
from baycue.synthetic.club_physics import Downswing
from baycue.synthetic.curves import Curve, minimum_jerk, resting_curve, solve
from baycue.synthetic.detour import detour_curve, detoured
from baycue.synthetic.grip import holding_hand
from baycue.synthetic.phases import Phases
from baycue.synthetic.scene import ClubPose
from baycue.synthetic.swing_style import SwingStyle

FloatArray = NDArray[np.float64]

ADDRESS_SHAFT_DEG = -2.0
WAGGLE_S, WAGGLE_ARM_DEG, WAGGLE_SHAFT_DEG = 0.9, -3.0, -24.0
CLEARANCE_M = 0.004
BALL_RADIUS_M = 0.0214
BEHIND_BALL_M = 0.018
TRAIL_REACH = 1.01
"""The trail arm's reach at P8 with some help from the shoulder blade, of its length."""
HANDS_OUT_LEVER_M = 0.32
"""How far out the hands go at P2 for a radian less of arm plane."""
P2_ARM_PLANE_DEG, P6_ARM_PLANE_DEG, IMPACT_ARM_PLANE_DEG = 90.0, 80.0, 69.0
TOP_ARM_PLANE_DEG, TOP_SHAFT_PLANE_DEG = 58.0, 60.0
WRIST_HINGE_FROM, ROLL_BY = 0.12, 0.62
"""Shares of the backswing: hinging starts, and the forearm has rolled."""


def waggle(time_s: float, until_s: float, count: int) -> float:
    """0 to 1 and back, ``count`` times at the waggle's own rate, ending at ``until_s``."""
    since = time_s - (until_s - count * WAGGLE_S)
    return sin(pi * since / WAGGLE_S) ** 2 if 0 < since < count * WAGGLE_S else 0.0


class ArmMotion:
    """Arm and club from address until just past P8."""

    def __init__(
        self, body: BodyMotion, style: SwingStyle, down: Downswing, phases: Phases
    ) -> None:
        self._body, self._style, self._down, self._phases = body, style, down, phases
        self._club = style.club_held
        self.impact = self._at_impact()
        self.contact_m = self._pose(phases.impact_s, self.impact).head_m
        self.address = self._at_address()
        self._planes = self._plane_curve()
        self._roll = self._roll_curve()
        self._detour = detour_curve(style.oddity, phases)
        self._top_deg = down.angles_deg(0.0)
        self._lift = self._clearance_curve()

    @property
    def ball_m(self) -> FloatArray:
        """(3,) the ball, touched by the club face at impact."""
        gap_m = self._club.half_head_m + BALL_RADIUS_M
        return np.asarray(self.contact_m + np.array([gap_m, 0.0, 0.0]))

    def angles_at(self, time_s: float) -> ArmAngles:
        """Arm, shaft, planes and roll at a time."""
        angles = self._unlifted(time_s)
        lift_deg = self._lift.scalar(time_s)
        return replace(angles, shaft_plane_deg=angles.shaft_plane_deg - lift_deg)

    def _unlifted(self, time_s: float) -> ArmAngles:
        arm_deg, shaft_deg = self._swing_angles(time_s)
        arm_plane, shaft_plane, stretch = (float(v) for v in self._planes(time_s))
        roll = self._roll.scalar(time_s)
        angles = ArmAngles(arm_deg, shaft_deg, arm_plane, shaft_plane, roll, stretch)
        return detoured(angles, self._detour, time_s)

    def _pose(self, time_s: float, angles: ArmAngles) -> ClubPose:
        skeleton = self._body.trunk_at(time_s)
        return held_club(self._body.rig, skeleton.head_of("upperarm_l"), angles, self._club)

    def _swing_angles(self, time_s: float) -> tuple[float, float]:
        phases = self._phases
        if time_s >= phases.top_s:
            return self._down.angles_deg(time_s - phases.top_s)
        if time_s <= phases.start_s:
            lift = waggle(time_s, phases.start_s - self._style.still_s, self._style.waggles)
            return (
                self.address.arm_deg + WAGGLE_ARM_DEG * lift,
                self.address.shaft_deg + WAGGLE_SHAFT_DEG * lift,
            )
        share = (time_s - phases.start_s) / (phases.top_s - phases.start_s)
        hinge = (share - WRIST_HINGE_FROM) / (1 - WRIST_HINGE_FROM)
        top_arm, top_shaft = self._top_deg
        start_wrist = self.address.shaft_deg - self.address.arm_deg
        arm = self.address.arm_deg + (top_arm - self.address.arm_deg) * minimum_jerk(share)
        turned = (top_shaft - top_arm - start_wrist) * minimum_jerk(hinge)
        return arm, arm + start_wrist + turned

    def _at_impact(self) -> ArmAngles:
        arm_deg, shaft_deg = self._down.angles_deg(self._down.duration_s)

        def angles(values: FloatArray) -> ArmAngles:
            return ArmAngles(arm_deg, shaft_deg, IMPACT_ARM_PLANE_DEG, float(values[0]), 0.0)

        def miss(values: FloatArray) -> FloatArray:
            head_m = self._pose(self._phases.impact_s, angles(values)).head_m
            return np.asarray(head_m[1:2] - self._club.ball_y_m)

        return angles(solve(miss, [55.0], f"the {self._club.name} does not reach the ball"))

    def _at_address(self) -> ArmAngles:
        target = self.contact_m - np.array([BEHIND_BALL_M, 0.0, 0.0])
        target[1] = min(target[1], 0.028)

        def angles(values: FloatArray) -> ArmAngles:
            arm_deg, arm_plane, shaft_plane = (float(v) for v in values)
            return ArmAngles(arm_deg, ADDRESS_SHAFT_DEG, arm_plane, shaft_plane, 0.0, SOFT_ARM)

        def miss(values: FloatArray) -> FloatArray:
            return np.asarray(self._pose(self._phases.start_s, angles(values)).head_m - target)

        start = [-10.0, self.impact.arm_plane_deg + 8.0, self.impact.shaft_plane_deg - 6.0]
        return angles(solve(miss, start, "the club does not reach the ball at address"))

    def _plane_curve(self) -> Curve:
        phases, address, impact = self._phases, self.address, self.impact
        out_deg = np.degrees(self._style.hands_out_m / HANDS_OUT_LEVER_M)
        shaft_back = 0.5 * (address.shaft_plane_deg + TOP_SHAFT_PLANE_DEG)
        shaft_down = 0.5 * (impact.shaft_plane_deg + TOP_SHAFT_PLANE_DEG)
        through = (impact.arm_plane_deg - 4.0, impact.shaft_plane_deg, self._stretch_at_p8())
        keys = {
            phases.start_s: (address.arm_plane_deg, address.shaft_plane_deg, SOFT_ARM),
            phases.back(0.45): (P2_ARM_PLANE_DEG - out_deg, shaft_back, STRAIGHT_ARM),
            phases.top_s: (TOP_ARM_PLANE_DEG, TOP_SHAFT_PLANE_DEG, STRAIGHT_ARM),
            phases.p6_s: (P6_ARM_PLANE_DEG, shaft_down, STRAIGHT_ARM),
            phases.impact_s: (impact.arm_plane_deg, impact.shaft_plane_deg, STRAIGHT_ARM),
            phases.p8_s: through,
        }
        times, planes = list(keys), list(keys.values())
        return resting_curve(times, np.array(planes))

    def _clearance_curve(self) -> Curve:
        """How much flatter the shaft must lie early on for the head to stay off the ground."""
        phases = self._phases
        floor_m = float(self._pose(phases.start_s, self.address).head_m[1]) + CLEARANCE_M
        times = [phases.back(share) for share in np.linspace(0.0, 0.6, 19)]
        lifts = [self._lift_needed(t, floor_m) for t in times[1:-1]]
        return resting_curve(times, [0.0, *lifts, 0.0])

    def _lift_needed(self, time_s: float, floor_m: float) -> float:
        angles, lift_deg = self._unlifted(time_s), 0.0
        for _ in range(3):
            plane_deg = angles.shaft_plane_deg - lift_deg
            head_m = self._pose(time_s, replace(angles, shaft_plane_deg=plane_deg)).head_m
            lever = cos(radians(angles.shaft_deg)) * cos(radians(plane_deg))
            short_m = floor_m - float(head_m[1])
            if lever < 0.2 or (short_m < 0 and lift_deg == 0.0):
                break
            lift_deg += float(np.degrees(short_m / (self._club.length_m * lever)))
        return lift_deg

    def _stretch_at_p8(self) -> float:
        """How straight the lead arm can be at P8 with the trail hand still in reach."""
        skeleton = self._body.trunk_at(self._phases.p8_s)
        arm_deg, shaft_deg = self._down.angles_deg(self._phases.p8_s - self._phases.top_s)
        plane, shaft_plane = self.impact.arm_plane_deg - 4.0, self.impact.shaft_plane_deg
        rig = self._body.rig
        for stretch in np.arange(STRAIGHT_ARM, 0.8, -0.005):
            angles = ArmAngles(arm_deg, shaft_deg, plane, shaft_plane, -80.0, float(stretch))
            club = held_club(rig, skeleton.head_of("upperarm_l"), angles, self._club)
            wrist_m = holding_hand(rig, club, "r", np.ones(3)).wrist_m
            way_m = float(np.linalg.norm(wrist_m - skeleton.head_of("upperarm_r")))
            if way_m < TRAIL_REACH * rig.arms["r"].length_m:
                return float(stretch)
        return 0.8

    def _roll_curve(self) -> Curve:
        phases = self._phases
        times = [
            phases.start_s,
            phases.back(ROLL_BY),
            phases.top_s,
            phases.p6_s,
            phases.impact_s,
            phases.p8_s,
        ]
        return resting_curve(times, [0.0, 84.0, 90.0, 80.0, 0.0, -80.0])
