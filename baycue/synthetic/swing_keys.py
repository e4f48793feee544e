"""The body's keys of one swing, fitted so that legs reach and head and knee meet their goals."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic import key_shapes as shapes
from baycue.synthetic.body_keys import BodyKey
from baycue.synthetic.phases import Phases
from baycue.synthetic.rig import Rig
from baycue.synthetic.stance import (
    Stance,
    head_of_key,
    lead_knee_share,
    with_bent_legs,
    with_head_at,
)
from baycue.synthetic.swing_style import SwingStyle

FloatArray = NDArray[np.float64]

KNEE_SHARE = 0.86
"""How far out on its circle the lead knee may be at P6."""
LEG_SHARE, FINISH_LEG_SHARE = 0.975, 0.985
"""How straight a leg may get: hip to ankle, of its full length."""
_LOWER_M, _LOWEST_M = (0.0, 0.012, 0.024, 0.036), 0.05
"""By how much a head is let down that cannot be where it should, step by step."""


class KeyFitter:
    """Fits body shapes to a rig on its stance; the head is told as a move from address."""

    def __init__(self, rig: Rig, stance: Stance, address: BodyKey) -> None:
        self._rig, self._stance = rig, stance
        self._head_m = head_of_key(rig, address)

    def bent(self, key: BodyKey, share: float = LEG_SHARE) -> BodyKey:
        """The key with the hips low enough for both legs to reach."""
        return with_bent_legs(self._rig, self._stance, key, share)

    def headed(self, key: BodyKey, sway_m: float, rise_m: float) -> BodyKey:
        """The key with bent knees and the head moved that far from address."""
        head_m = self._head_m + np.array([sway_m, rise_m, 0.0])
        for _ in range(3):
            key = with_head_at(self._rig, self.bent(key), head_m)
        return key

    def headed_upward(self, key: BodyKey, sway_m: float, rise_m: float) -> BodyKey:
        """As ``headed``, or as little lower as a short spine makes it.

        Raises ValueError if even the lowest is too high.
        """
        for lower_m in _LOWER_M:
            try:
                return self.headed(key, sway_m, rise_m - lower_m)
            except ValueError:
                continue
        return self.headed(key, sway_m, rise_m - _LOWEST_M)

    def kneed(self, key: BodyKey, sway_m: float, rise_m: float) -> BodyKey:
        """As ``headed``, the hips moved so that the lead knee can be where it should be.

        Raises ValueError if it cannot.
        """
        for _ in range(20):
            key = self.headed(key, sway_m, rise_m)
            need = lead_knee_share(self._rig, self._stance, key)
            if abs(need) < KNEE_SHARE:
                return key
            step_m = 0.008 if need > 0 else -0.008
            hips_x_m, hips_drop_m = key.hips_x_m + step_m, key.hips_drop_m + 0.003
            key = replace(key, hips_x_m=hips_x_m, hips_drop_m=hips_drop_m)
        raise ValueError(f"the lead knee cannot be {key.lead_knee_past_m} m past the ankle")


def swing_keys(rig: Rig, style: SwingStyle, stance: Stance, phases: Phases) -> dict[float, BodyKey]:
    """The body's keys by time, s."""
    address, rise_m = shapes.address_shape(rig.body.stature_m), style.head_rise_at_impact_m
    fit = KeyFitter(rig, stance, address)
    half_back = shapes.half_back_shape(address, style)
    top = shapes.top_shape(half_back, style)
    arm_parallel = shapes.arm_parallel_shape(address, style)
    p6 = fit.kneed(shapes.p6_shape(address, arm_parallel, style), -0.004, 0.6 * rise_m - 0.014)
    impact = fit.headed(shapes.impact_shape(address, p6, style), 0.002, rise_m)
    p8 = shapes.p8_shape(impact)
    rising = shapes.rising_shape(p8)
    return {
        phases.start_s: address,
        phases.back(0.5): fit.headed(half_back, -0.008, 0.0),
        phases.top_s: fit.headed(top, -0.018, -0.004),
        phases.down(0.5): fit.headed(arm_parallel, -0.010, 0.2 * rise_m - 0.016),
        phases.p6_s: p6,
        phases.impact_s: impact,
        phases.p8_s: fit.headed_upward(p8, 0.006, rise_m + 0.012),
        phases.through(0.42): fit.bent(rising, FINISH_LEG_SHARE),
        phases.finish_s: fit.bent(shapes.finish_shape(rising), FINISH_LEG_SHARE),
    }
