"""The golfer's body through the swing: a curve through its keys."""

import numpy as np

from baycue.synthetic.body_keys import BodyKey, key_from
from baycue.synthetic.curves import minimum_jerk, resting_curve
from baycue.synthetic.phases import Phases
from baycue.synthetic.rig import Rig
from baycue.synthetic.skeleton import Skeleton, put_trunk
from baycue.synthetic.stance import Stance, standing
from baycue.synthetic.swing_keys import swing_keys
from baycue.synthetic.swing_style import SwingStyle


class BodyMotion:
    """The body's keys at any time, and the skeleton with trunk and legs in place."""

    def __init__(self, rig: Rig, style: SwingStyle, stance: Stance, phases: Phases) -> None:
        self.rig, self.stance, self.phases = rig, stance, phases
        keys = swing_keys(rig, style, stance, phases)
        self._curve = resting_curve(list(keys), np.array([k.vector() for k in keys.values()]))

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
