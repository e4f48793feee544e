"""The shapes a golfer's body takes at the checkpoints, before legs and head are fitted.

Angles and shifts are invented, chosen to look right to a coach (common practice, no source).
Each shape is told as a change from the one before it.
"""

from dataclasses import replace

from baycue.synthetic.body_keys import BodyKey
from baycue.synthetic.swing_style import SwingStyle


def address_shape(stature_m: float) -> BodyKey:
    """Standing to the ball."""
    scale = stature_m / 1.78
    return BodyKey(hips_drop_m=0.048 * scale, hips_z_m=-0.13 * scale, lead_knee_past_m=-0.01)


def knee_at_top_m(style: SwingStyle) -> float:
    """Where the lead knee is at the top: behind its goal, so that it moves toward it."""
    goal_m = style.knee_past_ankle_at_p6_m
    return min(-0.045 + 0.4 * goal_m, goal_m - 0.02)


def half_back_shape(address: BodyKey, style: SwingStyle) -> BodyKey:
    """Half-way through the backswing."""
    return replace(
        address,
        hips_x_m=-0.5 * style.sway_m,
        pelvis_turn_deg=-20.0,
        chest_turn_deg=-46.0,
        chest_side_deg=2.0,
        lead_blade_forward_deg=14.0,
        trail_blade_forward_deg=6.0,
        head_turn_deg=-4.0,
        lead_knee_past_m=-0.02 + 0.3 * knee_at_top_m(style),
        trail_knee_yaw_deg=-14.0,
    )


def top_shape(half_back: BodyKey, style: SwingStyle) -> BodyKey:
    """Top of the backswing."""
    return replace(
        half_back,
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
        lead_knee_past_m=knee_at_top_m(style),
        trail_knee_yaw_deg=-16.0,
    )


def arm_parallel_shape(address: BodyKey, style: SwingStyle) -> BodyKey:
    """Lead arm about parallel coming down: hips go down before they go up."""
    hips_at_p6_m = 0.045 + 0.5 * style.knee_past_ankle_at_p6_m
    return replace(
        address,
        hips_x_m=0.55 * hips_at_p6_m,
        hips_drop_m=address.hips_drop_m + style.pelvis_drop_m,
        pelvis_turn_deg=-14.0,
        pelvis_side_deg=2.0,
        chest_turn_deg=-58.0,
        chest_side_deg=6.0,
        lead_blade_forward_deg=16.0,
        trail_blade_forward_deg=-2.0,
        head_turn_deg=-12.0,
        lead_knee_past_m=0.45 * knee_at_top_m(style) + 0.55 * style.knee_past_ankle_at_p6_m,
        trail_knee_yaw_deg=-6.0,
    )


def p6_shape(address: BodyKey, arm_parallel: BodyKey, style: SwingStyle) -> BodyKey:
    """Shaft parallel coming down."""
    rise_m = style.head_rise_at_impact_m
    return replace(
        arm_parallel,
        hips_x_m=0.045 + 0.5 * style.knee_past_ankle_at_p6_m,
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


def impact_shape(address: BodyKey, p6: BodyKey, style: SwingStyle) -> BodyKey:
    """Impact."""
    return replace(
        p6,
        hips_x_m=p6.hips_x_m + 0.01,
        hips_drop_m=address.hips_drop_m + 0.005 - 0.45 * style.head_rise_at_impact_m,
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


def p8_shape(impact: BodyKey) -> BodyKey:
    """Shaft parallel going through."""
    return replace(
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


def rising_shape(p8: BodyKey) -> BodyKey:
    """On the way up to the finish, eyes following the ball."""
    return replace(
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


def finish_shape(rising: BodyKey) -> BodyKey:
    """The finish: weight on the lead foot, belt buckle to the target."""
    return replace(
        rising,
        hips_x_m=rising.hips_x_m + 0.015,
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
