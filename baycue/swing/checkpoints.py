"""Address to P8 read off a swing's curves, each between frames and with its one-sigma.

Shaft angles: -90 is parallel to the ground pointing away from the target, so P2 and P6
are where the shaft passes about -90 going back and coming down, P8 where it passes +90.  P3 and
P5 are where the lead arm passes about -90.  Impact is where the shaft points at where the
ball lay; if the club was hidden, when the ball is seen to go, or when the hands are back, with a
wider spread.  P6 is then told from the arms, wider still.  Down the line the hands tell all that
shaft and arm tell face-on: see ``from_behind``.
"""

from dataclasses import replace

import numpy as np

from baycue.swing.bow import UsualWay
from baycue.swing.crossing import first_crossing_s
from baycue.swing.curve import Curve
from baycue.swing.from_behind import told_by_hands
from baycue.swing.impact import find_impact
from baycue.swing.reached import AROUND_RETURN_S, Angle, checkpoint, reached
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves
from baycue.swing.top import find_top

_P2 = Angle(-90.3, 0.5, 0.0, 0.6, 0.5)
_P6, _P8 = Angle(-91.1, 0.5, 0.053, 0.75, 0.1), Angle(89.7, 0.1, 0.067, 0.57, 0.1)
"""A swing plane seen aslant moves "parallel" by some degrees.  The centres of P6 and P8 and the
spreads of all but the top were set on 500 development swings, of the bench's seeds 9 and 10; the
centres of P2, P3 and P5 on 269 of seeds 7 and 8 with nobody walking by, P3's and P5's moved by 0.1
and 0.2 deg on the 500."""
_P6_WAY, _P8_WAY = UsualWay(12_500.0, 0.6), UsualWay(-7000.0)
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
_P8_USUAL_DEG_S, _P8_FAST_S2_PER_DEG = 1900.0, 1e-6
"""A club that seems to be faster than is usual there was often read wrongly: one sigma so many
seconds more for each deg/s beyond."""
_P8_LONG_DEG, _P8_LONG_SHARE = 25.0, 0.25
"""Of a smear longer than that light may show one end alone: one sigma such a share of the rest
more."""
_P8_HIDDEN_DEG = 6.0
"""What hides the shaft there in some pictures is taken for it in others: one sigma so much more for
each in a row that does not show it."""
_P3, _P5 = Angle(-89.6, 0.82, 0.0, 0.18, 0.48), Angle(-88.7, 1.26, 0.0, 0.19, 0.49)
"""The lead arm about where it turns: see ``swing.arms``."""
_ARM_AT_P6 = Angle(-31.0, 15.0)
"""Where the lead arm is when the shaft is parallel coming down, early and late releases alike."""
_COMPANY_TIMES, _COMPANY_TIMES_BESIDE = 1.1, 1.5
_BESIDE = (CheckpointName.P3, CheckpointName.P8)
"""Somebody close behind is now and then taken for club or arm: every spread is so much larger, most
where club or lead arm lies beside the body."""
_ADDRESS_BEFORE_S = 0.10
_TAKEAWAY_SIGMA_S, _TAKEAWAY_FROM_BEHIND_SIGMA_S = 0.0114, 0.055
"""From behind, the hands start along the line of sight and hardly move in the picture."""


def find_checkpoints(curves: SwingCurves) -> tuple[Checkpoint, ...]:
    """The checkpoints from address to P8, in order of time; what cannot be told is left out."""
    takeaway, impact = _takeaway(curves), find_impact(curves)
    ends = (_address(curves), takeaway, find_top(curves), impact, _p8(curves))
    found = (*ends, *_between(curves, takeaway, impact))
    told = (c for c in found if c)
    if curves.in_company:
        told = (replace(c, sigma_ns=round(_company_times(c.name) * c.sigma_ns)) for c in told)
    return tuple(sorted(told, key=lambda c: c.time_ns))


def _company_times(name: CheckpointName) -> float:
    return _COMPANY_TIMES_BESIDE if name in _BESIDE else _COMPANY_TIMES


def _between(
    curves: SwingCurves, takeaway: Checkpoint, impact: Checkpoint
) -> tuple[Checkpoint | None, ...]:
    """P2, P3, P5 and P6."""
    if curves.hands is not None:
        return told_by_hands(curves.strike, curves.hands, takeaway, impact)
    return _p2(curves), _p3(curves), _p5(curves), _p6(curves)


def _address(curves: SwingCurves) -> Checkpoint:
    at = curves.takeaway_s - _ADDRESS_BEFORE_S
    return checkpoint(CheckpointName.ADDRESS, at, _ADDRESS_BEFORE_S / 2)


def _takeaway(curves: SwingCurves) -> Checkpoint:
    sigma = _TAKEAWAY_SIGMA_S if curves.arm is not None else _TAKEAWAY_FROM_BEHIND_SIGMA_S
    return checkpoint(CheckpointName.TAKEAWAY, curves.takeaway_s, sigma)


def _p2(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.takeaway_s, curves.top_s)
    return reached(curves, curves.shaft, CheckpointName.P2, _P2, span, rising=False)


def _p8(curves: SwingCurves) -> Checkpoint | None:
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
    fast_deg = _P8_FAST_S2_PER_DEG * max(rate_deg_s - _P8_USUAL_DEG_S, 0.0) * rate_deg_s
    long_deg = _P8_LONG_SHARE * max(smear_deg - _P8_LONG_DEG, 0.0)
    too_low_deg = _P8_WAY.too_low_deg(shaft, curves.shaft_seen, at)
    deg = _P8.deg - behind_deg - too_low_deg + _P8_AHEAD_DEG * _sparse(curves)
    hidden_deg = _P8_HIDDEN_DEG * curves.frames.missed_about(at)
    sigma_deg = float(np.linalg.norm([_P8.sigma_deg, fast_deg, long_deg, hidden_deg]))
    return replace(_P8, deg=deg, sigma_deg=sigma_deg)


def _sparse(curves: SwingCurves) -> float:
    """0 for pictures at most 1/60 s apart, 1 for 1/30 s and more."""
    return float(np.clip(curves.frames.apart_s / _DENSE_S - 1.0, 0.0, 1.0))


def _p6(curves: SwingCurves) -> Checkpoint | None:
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
    too_low_deg = _P6_WAY.too_low_deg(shaft, curves.shaft_seen, at)
    deg = _P6.deg + _READ_AHEAD_S * too_fast_deg_s - too_low_deg + _P6_AHEAD_DEG * _sparse(curves)
    return replace(_P6, deg=deg, sigma_deg=sigma_deg)


def _p3(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.takeaway_s, curves.top_s)
    return reached(curves, curves.arm, CheckpointName.P3, _P3, span, rising=False)


def _p5(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.top_s, curves.return_s)
    return reached(curves, curves.arm, CheckpointName.P5, _P5, span, rising=True)
