"""Impact: where the shaft points at the ball; else when the ball goes, or the hands return."""

import numpy as np

from baycue.swing.crossing import crossing_sigma_s, first_crossing_s
from baycue.swing.reached import AROUND_RETURN_S, checkpoint, with_unseen
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves

_BEYOND_BALL_DEG, _BALL_DIRECTION_SIGMA_DEG, _BALL_CURVE_TIMES = 5.5, 5.6, 0.86
_USUAL_DEG_S = 2000.0
"""At address the head stands behind the ball; seen on random synthetic swings, at every frame
rate alike.  A club that turns more slowly than is usual at the ball was let go late, and its head
comes there another way: the spread of its direction grows by as much."""
_RETURN_SIGMA_S = 0.025
_BALL_HIDDEN_SIGMA_S = 0.008
"""Seen from behind, the club may hide the ball before it strikes it."""


def find_impact(curves: SwingCurves) -> Checkpoint:
    """By the best of what was seen; always something, for the hands came back."""
    return _shaft_at_ball(curves) or _ball_gone(curves) or _hands_returned(curves)


def _shaft_at_ball(curves: SwingCurves) -> Checkpoint | None:
    if curves.shaft is None:
        return None
    span = (curves.return_s - AROUND_RETURN_S, curves.end_s)
    struck_deg = curves.ball_deg + _BEYOND_BALL_DEG
    at = first_crossing_s(curves.shaft, struck_deg, span, rising=True)
    if at is None:
        return None
    slower = _USUAL_DEG_S / max(curves.shaft.rate_at(at), 1.0)
    sigma_deg = slower * _BALL_DIRECTION_SIGMA_DEG
    sigma = crossing_sigma_s(curves.shaft, at, sigma_deg, _BALL_CURVE_TIMES)
    return checkpoint(CheckpointName.IMPACT, at, with_unseen(curves, at, sigma))


def _ball_gone(curves: SwingCurves) -> Checkpoint | None:
    gone = curves.ball_gone
    if gone is None:
        return None
    sigma_s = float(np.hypot(gone.sigma_ns * 1e-9, _BALL_HIDDEN_SIGMA_S))
    return checkpoint(CheckpointName.IMPACT, gone.time_ns * 1e-9, sigma_s)


def _hands_returned(curves: SwingCurves) -> Checkpoint:
    return checkpoint(CheckpointName.IMPACT, curves.return_s, _RETURN_SIGMA_S)
