"""The golfer's body through the swing: keys at the checkpoints, curves between them."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.body_keys import (
    BodyKey,
    Stance,
    head_of_key,
    key_from,
    lead_knee_share,
    standing,
    with_bent_legs,
    with_head_at,
)
from baycue.synthetic.curves import minimum_jerk, resting_curve
from baycue.synthetic.posture import Skeleton, put_trunk
from baycue.synthetic.rig import Rig
from baycue.synthetic.swing_style import SwingStyle

FloatArray = NDArray[np.float64]

KNEE_SHARE = 0.86
"""How far out on its circle the lead knee may be at P6."""
LEG_SHARE, FINISH_LEG_SHARE = 0.975, 0.985
"""How straight a leg may get: hip to ankle, of its full length."""


@dataclass(frozen=True, slots=True)
class Phases:
    """When the swing's phases begin, seconds."""

    start_s: float
    top_s: float
    p6_s: float
    impact_s: float
    p8_s: float
    finish_s: float

    def back(self, share: float) -> float:
        """A time between start and top."""
        return self.start_s + share * (self.top_s - self.start_s)

    def down(self, share: float) -> float:
        """A time between top and impact."""
        return self.top_s + share * (self.impact_s - self.top_s)


def address_key(rig: Rig, style: SwingStyle) -> BodyKey:
    """How the golfer stands to the ball."""
    scale = rig.body.stature_m / 1.78
    return BodyKey(hips_drop_m=0.048 * scale, hips_z_m=-0.13 * scale, lead_knee_past_m=-0.01)


def knee_at_top(style: SwingStyle) -> float:
    """Where the lead knee is at the top: behind its goal, so that it moves toward it."""
    return min(-0.045 + 0.4 * style.knee_past_ankle_at_p6_m, style.knee_past_ankle_at_p6_m - 0.02)


def _hips_at_p6(style: SwingStyle) -> float:
    return 0.045 + 0.5 * style.knee_past_ankle_at_p6_m


class BodyMotion:
    """The body's keys at any time, and the skeleton with trunk and legs in place."""

    def __init__(self, rig: Rig, style: SwingStyle, stance: Stance, phases: Phases) -> None:
        self.rig, self.style, self.stance, self.phases = rig, style, stance, phases
        address = address_key(rig, style)
        self._head_m = head_of_key(rig, address)
        timed = {phases.start_s: address, **self._back(address)}
        timed |= self._down(address)
        timed |= self._through(timed[phases.impact_s])
        times = sorted(timed)
        self._curve = resting_curve(times, np.array([timed[t].vector() for t in times]))

    def key_at(self, time_s: float) -> BodyKey:
        """The body's numbers at a time; the backswing starts and ends smoothly."""
        phases = self.phases
        if phases.start_s < time_s < phases.top_s:
            share = (time_s - phases.start_s) / (phases.top_s - phases.start_s)
            time_s = phases.back(minimum_jerk(share))
        return key_from(self._curve(time_s))

    def trunk_at(self, time_s: float) -> Skeleton:
        """The trunk alone in place."""
        return put_trunk(self.rig, self.key_at(time_s).trunk(self.rig))

    def skeleton_at(self, time_s: float) -> Skeleton:
        """Trunk and legs in place, arms still to be put."""
        return standing(self.rig, self.stance, self.key_at(time_s))

    def _headed(self, key: BodyKey, sway_m: float, rise_m: float) -> BodyKey:
        """The key with bent knees and the head moved that far from address."""
        head_m = self._head_m + np.array([sway_m, rise_m, 0.0])
        for _ in range(3):
            key = with_head_at(self.rig, self._bent(key), head_m)
        return key

    def _kneed(self, key: BodyKey, sway_m: float, rise_m: float) -> BodyKey:
        """As ``_headed``, the hips moved so that the lead knee can be where it should be."""
        for _ in range(20):
            key = self._headed(key, sway_m, rise_m)
            need = lead_knee_share(self.rig, self.stance, key)
            if abs(need) < KNEE_SHARE:
                return key
            step = 0.008 if need > 0 else -0.008
            key = replace(key, hips_x_m=key.hips_x_m + step, hips_drop_m=key.hips_drop_m + 0.003)
        goal = self.style.knee_past_ankle_at_p6_m
        raise ValueError(f"the lead knee cannot be {goal} m past the ankle")

    def _bent(self, key: BodyKey, share: float = LEG_SHARE) -> BodyKey:
        return with_bent_legs(self.rig, self.stance, key, share)

    def _back(self, address: BodyKey) -> dict[float, BodyKey]:
        style, phases = self.style, self.phases
        half = replace(
            address,
            hips_x_m=-0.5 * style.sway_m,
            pelvis_turn_deg=-20.0,
            chest_turn_deg=-46.0,
            chest_side_deg=2.0,
            lead_blade_forward_deg=14.0,
            trail_blade_forward_deg=6.0,
            head_turn_deg=-4.0,
            lead_knee_past_m=-0.02 + 0.3 * knee_at_top(style),
            trail_knee_yaw_deg=-14.0,
        )
        top = replace(
            half,
            hips_x_m=-style.sway_m,
            pelvis_turn_deg=-44.0,
            pelvis_side_deg=-4.0,
            chest_turn_deg=-92.0,
            chest_side_deg=0.0,
            lead_blade_forward_deg=22.0,
            lead_blade_up_deg=2.0,
            trail_blade_forward_deg=-12.0,
            trail_blade_up_deg=6.0,
            head_turn_deg=-12.0,
            lead_knee_past_m=knee_at_top(style),
            trail_knee_yaw_deg=-16.0,
        )
        return {
            phases.back(0.5): self._headed(half, -0.008, 0.0),
            phases.top_s: self._headed(top, -0.018, -0.004),
        }

    def _down(self, address: BodyKey) -> dict[float, BodyKey]:
        style, phases = self.style, self.phases
        rise_m, hips_m = style.head_rise_at_impact_m, _hips_at_p6(style)
        arm_parallel = replace(
            address,
            hips_x_m=0.55 * hips_m,
            hips_drop_m=address.hips_drop_m + style.pelvis_drop_m,
            pelvis_turn_deg=-14.0,
            pelvis_side_deg=2.0,
            chest_turn_deg=-58.0,
            chest_side_deg=6.0,
            lead_blade_forward_deg=16.0,
            trail_blade_forward_deg=-2.0,
            head_turn_deg=-12.0,
            lead_knee_past_m=0.45 * knee_at_top(style) + 0.55 * style.knee_past_ankle_at_p6_m,
            trail_knee_yaw_deg=-6.0,
        )
        p6 = replace(
            arm_parallel,
            hips_x_m=hips_m,
            hips_drop_m=address.hips_drop_m + 0.6 * style.pelvis_drop_m - 0.3 * rise_m,
            pelvis_turn_deg=14.0,
            chest_turn_deg=-22.0,
            chest_side_deg=12.0,
            lead_blade_forward_deg=6.0,
            trail_blade_forward_deg=10.0,
            head_turn_deg=-10.0,
            lead_knee_past_m=style.knee_past_ankle_at_p6_m,
            trail_knee_yaw_deg=10.0,
            trail_heel_deg=3.0,
        )
        p6 = self._kneed(p6, -0.004, -0.014 + 0.6 * rise_m)
        impact = replace(
            p6,
            hips_x_m=p6.hips_x_m + 0.01,
            hips_drop_m=address.hips_drop_m + 0.005 - 0.45 * rise_m,
            pelvis_turn_deg=36.0,
            pelvis_bend_deg=14.0,
            pelvis_side_deg=6.0,
            chest_turn_deg=18.0,
            chest_side_deg=16.0,
            lead_blade_forward_deg=2.0,
            lead_blade_up_deg=-8.0,
            trail_blade_forward_deg=8.0,
            trail_blade_up_deg=-2.0,
            lead_knee_past_m=style.knee_past_ankle_at_p6_m + 0.012,
            trail_knee_yaw_deg=28.0,
            trail_heel_deg=16.0,
        )
        return {
            phases.down(0.5): self._headed(arm_parallel, -0.010, -0.016 + 0.2 * rise_m),
            phases.p6_s: p6,
            phases.impact_s: self._headed(impact, 0.002, rise_m),
        }

    def _through(self, impact: BodyKey) -> dict[float, BodyKey]:
        phases = self.phases
        p8 = replace(
            impact,
            hips_x_m=impact.hips_x_m + 0.02,
            hips_drop_m=impact.hips_drop_m - 0.015,
            pelvis_turn_deg=54.0,
            pelvis_bend_deg=10.0,
            chest_turn_deg=46.0,
            chest_side_deg=17.0,
            head_turn_deg=4.0,
            head_bend_deg=44.0,
            lead_blade_forward_deg=-6.0,
            trail_blade_forward_deg=28.0,
            trail_knee_yaw_deg=42.0,
            trail_foot_yaw_deg=4.0,
            trail_heel_deg=28.0,
        )
        late = replace(
            p8,
            hips_x_m=p8.hips_x_m + 0.025,
            hips_drop_m=0.02,
            hips_z_m=-0.07,
            pelvis_turn_deg=74.0,
            pelvis_bend_deg=4.0,
            pelvis_side_deg=2.0,
            chest_turn_deg=82.0,
            chest_bend_deg=16.0,
            chest_side_deg=12.0,
            head_turn_deg=50.0,
            head_bend_deg=16.0,
            trail_blade_forward_deg=22.0,
            lead_blade_up_deg=8.0,
            lead_knee_past_m=0.02,
            trail_knee_yaw_deg=62.0,
            trail_foot_yaw_deg=28.0,
            trail_heel_deg=50.0,
        )
        finish = replace(
            late,
            hips_x_m=late.hips_x_m + 0.015,
            hips_drop_m=0.012,
            hips_z_m=-0.04,
            pelvis_turn_deg=86.0,
            pelvis_bend_deg=0.0,
            pelvis_side_deg=0.0,
            chest_turn_deg=104.0,
            chest_bend_deg=2.0,
            chest_side_deg=6.0,
            head_turn_deg=84.0,
            head_bend_deg=4.0,
            trail_blade_forward_deg=26.0,
            lead_blade_up_deg=12.0,
            trail_blade_up_deg=4.0,
            lead_knee_past_m=0.0,
            trail_knee_yaw_deg=72.0,
            trail_foot_yaw_deg=36.0,
            trail_heel_deg=58.0,
        )
        middle_s = phases.p8_s + 0.42 * (phases.finish_s - phases.p8_s)
        return {
            phases.p8_s: self._headed(p8, 0.006, self.style.head_rise_at_impact_m + 0.012),
            middle_s: self._bent(late, FINISH_LEG_SHARE),
            phases.finish_s: self._bent(finish, FINISH_LEG_SHARE),
        }
