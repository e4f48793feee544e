"""Where the shaft is parallel to the ground: P2 going back, P6 coming down, P8 going through.

Shaft angles: -90 is parallel to the ground pointing away from the target, so P2 and P6 are where
the shaft passes about -90, P8 where it passes +90.  Without the club P6 is told from the lead arm,
with a wide spread.
"""

from dataclasses import replace

import numpy as np

from baycue.swing.bow import UsualAcceleration
from baycue.swing.crossing import first_crossing_s
from baycue.swing.curve import Curve
from baycue.swing.reached import AROUND_RETURN_S, Angle, reached
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves

_P2 = Angle(-90.3, 0.47, curve_times=0.57, misfit_share=0.47)
_P6 = Angle(-91.1, 0.48, smear_share=0.052, curve_times=0.74, misfit_share=0.1)
_P8 = Angle(89.7, 0.1, smear_share=0.065, curve_times=0.56, misfit_share=0.1)
"""A swing plane seen aslant moves "parallel" by some degrees.  The centres of P6 and P8 and the
spreads were set on 500 development swings, of the bench's seeds 9 and 10, and the spreads moved by
2 to 6 % on seed 12's 500 and by 4 to 10 % on 1122 of seeds 9, 10, 12 and 13; the centre of P2 on
269 of seeds 7 and 8 with nobody walking by."""
_P6_USUAL, _P8_USUAL = UsualAcceleration(12_500.0, 0.6), UsualAcceleration(-7000.0)
"""The 500's middle, and how much of what a curve says beyond it was error there."""
_USUAL_AT_P6_DEG_S, _READ_AHEAD_S, _READ_AHEAD_SIGMA_S = 1800.0, 0.004, 0.01
"""A club that seems to turn faster than is usual when it is level was read too far ahead in a
picture just after, as where it passes the legs: that much further at P6, one sigma so much, by the
excess in deg/s.  Set on 355 of seeds 1, 3, 4, 5 and 11, the spread on the 500."""
_P6_AHEAD_DEG, _P8_AHEAD_DEG, _DENSE_S = 0.8, 0.8, 1 / 60
"""A curve through pictures that are 1/30 s apart runs ahead of the club by so much; at 60 a second
and more it does not."""
_P8_BEHIND_SHARE, _P8_CLEAR_DEG = 0.22, 10.0
"""After the ball a shaft that is smeared by more than is clear is read behind the middle of its
smear, by such a share of the rest."""
_P8_FAST_DEG_S, _P8_FAST_S2_PER_DEG = 1900.0, 1e-6
"""A club that seems to be faster than is usual there was often read wrongly: one sigma so many
seconds more for each deg/s beyond."""
_P8_LONG_DEG, _P8_LONG_SHARE = 25.0, 0.25
"""Of a smear longer than that light may show one end alone: one sigma such a share of the rest
more."""
_P8_HIDDEN_DEG = 6.0
"""What hides the shaft there in some pictures is taken for it in others: one sigma so much more for
each in a row that does not show it."""
_ARM_AT_P6 = Angle(-31.0, 15.0)
"""Where the lead arm is when the shaft is parallel coming down, early and late releases alike."""


def find_p2(curves: SwingCurves) -> Checkpoint | None:
    """Between takeaway and top; None if the club was hidden."""
    span = (curves.takeaway_s, curves.top_s)
    return reached(curves, curves.shaft, CheckpointName.P2, _P2, span, rising=False)


def find_p8(curves: SwingCurves) -> Checkpoint | None:
    """After the ball; None if the club was hidden or is not there yet."""
    span = (curves.return_s - AROUND_RETURN_S, curves.end_s)
    angle = _P8 if curves.shaft is None else _angle_at_p8(curves, curves.shaft, span)
    return reached(curves, curves.shaft, CheckpointName.P8, angle, span, rising=True)


def _angle_at_p8(curves: SwingCurves, shaft: Curve, span_s: tuple[float, float]) -> Angle:
    """Sooner for a smeared club, later where pictures are far apart, less sure for a fast one."""
    at = first_crossing_s(shaft, np.full_like(shaft.values, _P8.deg), span_s, rising=True)
    if at is None:
        return _P8
    smear_deg = curves.frames.smear_about_deg(at)
    rate_deg_s = max(shaft.rate_at(at), 0.0)
    behind_deg = _P8_BEHIND_SHARE * max(smear_deg - _P8_CLEAR_DEG, 0.0)
    fast_deg = _P8_FAST_S2_PER_DEG * max(rate_deg_s - _P8_FAST_DEG_S, 0.0) * rate_deg_s
    long_deg = _P8_LONG_SHARE * max(smear_deg - _P8_LONG_DEG, 0.0)
    too_low_deg = _P8_USUAL.too_low_deg(shaft, curves.shaft_seen, at)
    deg = _P8.deg - behind_deg - too_low_deg + _P8_AHEAD_DEG * _sparse(curves)
    hidden_deg = _P8_HIDDEN_DEG * curves.frames.missed_about(at)
    sigma_deg = float(np.linalg.norm([_P8.sigma_deg, fast_deg, long_deg, hidden_deg]))
    return replace(_P8, deg=deg, sigma_deg=sigma_deg)


def _sparse(curves: SwingCurves) -> float:
    """0 for pictures at most 1/60 s apart, 1 for 1/30 s and more."""
    return float(np.clip(curves.frames.apart_s / _DENSE_S - 1.0, 0.0, 1.0))


def find_p6(curves: SwingCurves) -> Checkpoint | None:
    """From the top on, by the shaft, else by the lead arm."""
    span = (curves.top_s, curves.end_s)
    curve, angle = curves.arm, _ARM_AT_P6
    if curves.shaft is not None:
        curve, angle = curves.shaft, _angle_at_p6(curves, curves.shaft, span)
    return reached(curves, curve, CheckpointName.P6, angle, span, rising=True)


def _angle_at_p6(curves: SwingCurves, shaft: Curve, span_s: tuple[float, float]) -> Angle:
    """Further on, and less sure, for a club that seems to be too fast there."""
    at = first_crossing_s(shaft, np.full_like(shaft.values, _P6.deg), span_s, rising=True)
    if at is None:
        return _P6
    too_fast_deg_s = max(shaft.rate_at(at) - _USUAL_AT_P6_DEG_S, 0.0)
    sigma_deg = float(np.hypot(_P6.sigma_deg, _READ_AHEAD_SIGMA_S * too_fast_deg_s))
    too_low_deg = _P6_USUAL.too_low_deg(shaft, curves.shaft_seen, at)
    deg = _P6.deg + _READ_AHEAD_S * too_fast_deg_s - too_low_deg + _P6_AHEAD_DEG * _sparse(curves)
    return replace(_P6, deg=deg, sigma_deg=sigma_deg)
