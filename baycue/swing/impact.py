"""Impact: where the shaft points at the ball; else when the ball goes, or the hands return."""

import numpy as np

from baycue.swing.bow import UsualAcceleration
from baycue.swing.crossing import crossing_sigma_s, first_crossing_s
from baycue.swing.curve import Curve
from baycue.swing.reached import AROUND_RETURN_S, checkpoint, with_unseen
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves

_BEYOND_BALL_DEG, _BALL_DIRECTION_SIGMA_DEG, _BALL_CURVE_TIMES = 6.3, 1.98, 0.95
"""At address the head stands behind the ball."""
_SMEAR_SHARE = 0.125
"""Of a smeared shaft light shows one part more than another: so much of the smear is unsure."""
_USUAL, _WITHIN_USUAL_DEG_S2, _UNUSUAL_S2 = UsualAcceleration(7000.0), 17_500.0, 6e-4
"""A club that seems to gain or lose speed far from how it usually does at the ball was misread: one
sigma so much more by the excess.  All these were set on 500 development swings, of the bench's
seeds 9 and 10, the spreads moved by 3 % on seed 12's 500 and again on 1122 of seeds 9, 10, 12 and
13."""
_USUAL_APART_S, _DENSER_DEG = 1 / 60, 1.5
"""So soon after the ball a curve through pictures half as far apart is ahead by so much more, and
one through pictures twice as far apart behind by so much: without this impact was told 0.7 ms
late at 30 frames a second and 0.8 ms early at 120 on 375 swings of other seeds."""
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
    struck_deg = curves.ball_deg + _beyond_ball_deg(curves.frames.apart_s)
    at = first_crossing_s(curves.shaft, struck_deg, span, rising=True)
    if at is None:
        return None
    struck_deg = struck_deg - _USUAL.too_low_deg(curves.shaft, curves.shaft_seen, at)
    at = first_crossing_s(curves.shaft, struck_deg, span, rising=True) or at
    sigma_deg = _direction_sigma_deg(curves, curves.shaft, at)
    sigma = crossing_sigma_s(curves.shaft, at, sigma_deg, _BALL_CURVE_TIMES)
    return checkpoint(CheckpointName.IMPACT, at, with_unseen(curves, at, sigma))


def _direction_sigma_deg(curves: SwingCurves, shaft: Curve, at_s: float) -> float:
    smear_deg = _SMEAR_SHARE * curves.frames.smear_about_deg(at_s)
    unusual_deg_s2 = max(abs(_USUAL.excess_deg_s2(shaft, at_s)) - _WITHIN_USUAL_DEG_S2, 0.0)
    return float(
        np.linalg.norm([_BALL_DIRECTION_SIGMA_DEG, smear_deg, _UNUSUAL_S2 * unusual_deg_s2])
    )


def _beyond_ball_deg(apart_s: float) -> float:
    """Further for pictures close to each other; not beyond the rates it was seen at, 30 to 120."""
    denser = float(np.clip(_USUAL_APART_S / max(apart_s, 1e-9), 0.5, 2.0))
    return _BEYOND_BALL_DEG + _DENSER_DEG * float(np.log2(denser))


def _ball_gone(curves: SwingCurves) -> Checkpoint | None:
    gone = curves.ball_gone
    if gone is None:
        return None
    sigma_s = float(np.hypot(gone.sigma_ns * 1e-9, _BALL_HIDDEN_SIGMA_S))
    return checkpoint(CheckpointName.IMPACT, gone.time_ns * 1e-9, sigma_s)


def _hands_returned(curves: SwingCurves) -> Checkpoint:
    return checkpoint(CheckpointName.IMPACT, curves.return_s, _RETURN_SIGMA_S)
