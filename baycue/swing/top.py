"""Where a swing turns: the top, told by the shaft, else by the hands."""

import numpy as np

from baycue.swing.crossing import turned
from baycue.swing.reached import checkpoint
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves

_TOP_RISE_DEG, _TOP_SHARE, _TOP_SHARE_SIGMA, _TOP_NOISE_TIMES = 2.0, 0.715, 0.034, 0.33
"""The shaft slows down before the top more gently than it gathers way after: so much of the time
within so few degrees of it lies before.  Pictures next to each other err alike, which moves a
turn by less than their spread says."""
_TOP_USUAL_S, _TOP_PAUSE_SHARE, _TOP_PAUSE_SIGMA = 0.15, 0.5, 0.3
"""Without a pause it lasts no longer; of a pause half lies before, as far as anybody knows."""
_EVENLY = 12**-0.5
"""One sigma of what may lie anywhere in a span, as a share of it."""
_BEFORE_TOP_S, _AFTER_TOP_S = 0.25, 0.40
"""In a pause the hands are highest long before the club turns."""
_ASTRAY_S = 0.25
"""Further from where the hands are highest the shaft was followed wrongly: on 384 development
swings it turned 0.15 s before to 0.22 s after, but for one, taken for going round the other way."""
_HANDS_TOP_SIGMA_S, _HANDS_TOP_LATER_S = 0.04, 0.02
"""The club turns before the hands come down: so much, seen from behind."""


def find_top(curves: SwingCurves) -> Checkpoint:
    """Where the shaft turns round, else where the hands are highest."""
    span = (curves.top_s - _BEFORE_TOP_S, curves.top_s + _AFTER_TOP_S)
    turn = turned(curves.shaft, span, _TOP_RISE_DEG, _TOP_SHARE) if curves.shaft else None
    if turn is None or abs(turn.time_s - curves.hands_top_s) > _ASTRAY_S:
        later_s = 0.0 if curves.hands is None else _HANDS_TOP_LATER_S
        return checkpoint(CheckpointName.TOP, curves.hands_top_s - later_s, _HANDS_TOP_SIGMA_S)
    pause_s = max(turn.lasted_s - _TOP_USUAL_S, 0.0)
    at_s = turn.time_s + (_TOP_PAUSE_SHARE - _TOP_SHARE) * pause_s
    usual_s = turn.lasted_s - pause_s
    shape_s = np.hypot(_TOP_SHARE_SIGMA * usual_s, _TOP_PAUSE_SIGMA * pause_s)
    sigma_s = np.hypot(shape_s, _TOP_NOISE_TIMES * turn.noise_s)
    sigma = float(min(sigma_s, _EVENLY * turn.lasted_s))
    return checkpoint(CheckpointName.TOP, at_s, sigma)
