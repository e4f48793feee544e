"""Address to P8 read off a swing's curves, each between frames and with its one-sigma.

Shaft angles: -90 is parallel to the ground pointing away from the target, so P2 and P6
are where the shaft passes about -90 going back and coming down, P8 where it passes +90.  P3 and
P5 are where the lead arm is drawn as it is at -90.  Impact is where the shaft points at where the
ball lay; if the club was hidden, when the ball is seen to go, or when the hands are back, with a
wider spread.  P6 is then told from the arms, wider still.  Down the line the hands tell all that
shaft and arm tell face-on: see ``from_behind``.
"""

from dataclasses import dataclass, replace

import numpy as np

from baycue.swing.crossing import crossing_sigma_s, first_crossing_s, turned
from baycue.swing.curve import Curve
from baycue.swing.from_behind import told_by_hands
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves


@dataclass(frozen=True, slots=True)
class _Angle:
    """An angle in the picture that marks a checkpoint, and how surely it does, one sigma.

    ``smear_share``: so much of the shaft's smear is added to that, for light and the club's own
    gloss make one part of a smear show more than another.  ``curve_times``: how much larger the
    curve's own spread is than it says, for pictures next to each other err alike.
    """

    deg: float
    sigma_deg: float
    smear_share: float = 0.0
    curve_times: float = 1.0


_P2 = _Angle(-90.0, 0.3, 0.0, 0.95)
_P6, _P8 = _Angle(-90.6, 0.4, 0.05, 1.1), _Angle(89.8, 0.5, 0.09, 0.9)
"""A swing plane seen aslant moves "parallel" by some degrees.  The centres and spreads of P6, top
and impact were set on 355 development swings, of the bench's seeds 1, 3, 4, 5 and 11, P8's centre
on 295 of seeds 1 and 6, its spread on 398 of seeds 1, 4, 5 and 6, frame rates weighted as in its
population: about where two thirds and 95 % of them lie within; those of P2, P3 and P5 on 87 to 108
of the 355."""
_USUAL_AT_P6_DEG_S, _READ_AHEAD_S, _READ_AHEAD_SIGMA_S = 1800.0, 0.004, 0.005
"""A club that seems to turn faster than is usual when it is level was read too far ahead in a
picture just after, as where it passes the legs: that much further at P6, one sigma so much, by the
excess in deg/s.  Set on the 355."""
_P8_BEHIND_SHARE, _P8_CLEAR_DEG = 0.22, 10.0
"""After the ball a shaft that is smeared by more than is clear is read behind the middle of its
smear, by such a share of the rest."""
_P8_AHEAD_DEG, _P8_AHEAD_SIGMA_DEG, _P8_DENSE_S = 1.5, 2.2, 1 / 60
"""The club slows down there, and a curve through pictures that are 1/30 s apart runs ahead of it,
by so much, one sigma so much; at 60 a second and more it does not."""
_P3, _P5 = _Angle(-83.0, 1.2, 0.0, 0.15), _Angle(-82.1, 1.5, 0.0, 0.5)
"""How the pose model draws a lead arm that is parallel: it sets the turned lead shoulder low."""
_ARM_AT_P6 = _Angle(-35.0, 15.0)
"""Where the lead arm is when the shaft is parallel coming down, early and late releases alike."""
_BEYOND_BALL_DEG, _BALL_DIRECTION_SIGMA_DEG, _BALL_CURVE_TIMES = 5.5, 5.6, 0.86
_USUAL_DEG_S = 2000.0
"""At address the head stands behind the ball; seen on random synthetic swings, at every frame
rate alike.  A club that turns more slowly than is usual at the ball was let go late, and its head
comes there another way: the spread of its direction grows by as much."""
_TOP_RISE_DEG, _TOP_SHARE, _TOP_SHARE_SIGMA, _TOP_NOISE_TIMES = 2.0, 0.715, 0.038, 0.36
"""The shaft slows down before the top more gently than it gathers way after: so much of the time
within so few degrees of it lies before.  Pictures next to each other err alike, which moves a
turn by less than their spread says."""
_TOP_USUAL_S, _TOP_PAUSE_SHARE, _TOP_PAUSE_SIGMA = 0.15, 0.5, 0.3
"""Without a pause it lasts no longer; of a pause half lies before, as far as anybody knows."""
_EVENLY = 12**-0.5
"""One sigma of what may lie anywhere in a span, as a share of it."""
_UNSEEN_S, _UNSEEN_SIGMA_S = 0.040, 0.030
"""With no picture of the shaft so near, what bridges the gap can be off by a frame."""
_ADDRESS_BEFORE_S = 0.10
_TAKEAWAY_SIGMA_S, _TAKEAWAY_FROM_BEHIND_SIGMA_S = 0.013, 0.055
"""From behind, the hands start along the line of sight and hardly move in the picture."""
_BEFORE_TOP_S, _AFTER_TOP_S = 0.25, 0.40
"""In a pause the hands are highest long before the club turns."""
_AROUND_RETURN_S = 0.09
_RETURN_SIGMA_S = 0.025
_BALL_HIDDEN_SIGMA_S = 0.008
"""Seen from behind, the club may hide the ball before it strikes it."""
_HANDS_TOP_SIGMA_S, _HANDS_TOP_LATER_S = 0.04, 0.02
"""The club turns before the hands come down: so much, seen from behind."""


def find_checkpoints(curves: SwingCurves) -> tuple[Checkpoint, ...]:
    """The checkpoints from address to P8, in order of time; what cannot be told is left out."""
    takeaway, impact = _takeaway(curves), _impact(curves)
    ends = (_address(curves), takeaway, _top(curves), impact, _p8(curves))
    found = (*ends, *_between(curves, takeaway, impact))
    return tuple(sorted((c for c in found if c), key=lambda c: c.time_ns))


def _between(
    curves: SwingCurves, takeaway: Checkpoint, impact: Checkpoint
) -> tuple[Checkpoint | None, ...]:
    """P2, P3, P5 and P6."""
    if curves.hands is not None:
        return told_by_hands(curves.strike, curves.hands, takeaway, impact)
    return _p2(curves), _p3(curves), _p5(curves), _p6(curves)


def _checkpoint(name: CheckpointName, time_s: float, sigma_s: float) -> Checkpoint:
    return Checkpoint(name, round(time_s * 1e9), max(round(sigma_s * 1e9), 1))


def _address(curves: SwingCurves) -> Checkpoint:
    at = curves.takeaway_s - _ADDRESS_BEFORE_S
    return _checkpoint(CheckpointName.ADDRESS, at, _ADDRESS_BEFORE_S / 2)


def _takeaway(curves: SwingCurves) -> Checkpoint:
    sigma = _TAKEAWAY_SIGMA_S if curves.arm is not None else _TAKEAWAY_FROM_BEHIND_SIGMA_S
    return _checkpoint(CheckpointName.TAKEAWAY, curves.takeaway_s, sigma)


def _p2(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.takeaway_s, curves.top_s)
    return _reached(curves, curves.shaft, CheckpointName.P2, _P2, span, rising=False)


def _p8(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.return_s - _AROUND_RETURN_S, curves.end_s)
    angle = _P8 if curves.shaft is None else _angle_at_p8(curves, curves.shaft, span)
    return _reached(curves, curves.shaft, CheckpointName.P8, angle, span, rising=True)


def _angle_at_p8(curves: SwingCurves, shaft: Curve, span_s: tuple[float, float]) -> _Angle:
    """Sooner for a smeared club, later where pictures are far apart."""
    at = first_crossing_s(shaft, np.full_like(shaft.values, _P8.deg), span_s, rising=True)
    smear_deg = curves.frames.smear_about_deg(at) if at is not None else 0.0
    behind_deg = _P8_BEHIND_SHARE * max(smear_deg - _P8_CLEAR_DEG, 0.0)
    sparse = float(np.clip(curves.frames.apart_s / _P8_DENSE_S - 1.0, 0.0, 1.0))
    deg = _P8.deg - behind_deg + _P8_AHEAD_DEG * sparse
    sigma_deg = float(np.hypot(_P8.sigma_deg, _P8_AHEAD_SIGMA_DEG * sparse))
    return replace(_P8, deg=deg, sigma_deg=sigma_deg)


def _p6(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.top_s, curves.end_s)
    curve, angle = curves.arm, _ARM_AT_P6
    if curves.shaft is not None:
        curve, angle = curves.shaft, _angle_at_p6(curves.shaft, span)
    return _reached(curves, curve, CheckpointName.P6, angle, span, rising=True)


def _angle_at_p6(shaft: Curve, span_s: tuple[float, float]) -> _Angle:
    """Further on, and less sure, for a club that seems to be too fast there."""
    at = first_crossing_s(shaft, np.full_like(shaft.values, _P6.deg), span_s, rising=True)
    too_fast_deg_s = max(shaft.rate_at(at) - _USUAL_AT_P6_DEG_S, 0.0) if at is not None else 0.0
    sigma_deg = float(np.hypot(_P6.sigma_deg, _READ_AHEAD_SIGMA_S * too_fast_deg_s))
    return replace(_P6, deg=_P6.deg + _READ_AHEAD_S * too_fast_deg_s, sigma_deg=sigma_deg)


def _p3(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.takeaway_s, curves.top_s)
    return _reached(curves, curves.arm, CheckpointName.P3, _P3, span, rising=False)


def _p5(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.top_s, curves.return_s)
    return _reached(curves, curves.arm, CheckpointName.P5, _P5, span, rising=True)


def _top(curves: SwingCurves) -> Checkpoint:
    """Where the shaft turns round, else where the hands are highest."""
    span = (curves.top_s - _BEFORE_TOP_S, curves.top_s + _AFTER_TOP_S)
    turn = turned(curves.shaft, span, _TOP_RISE_DEG, _TOP_SHARE) if curves.shaft else None
    if turn is None:
        later_s = 0.0 if curves.hands is None else _HANDS_TOP_LATER_S
        return _checkpoint(CheckpointName.TOP, curves.hands_top_s - later_s, _HANDS_TOP_SIGMA_S)
    pause_s = max(turn.lasted_s - _TOP_USUAL_S, 0.0)
    at_s = turn.time_s + (_TOP_PAUSE_SHARE - _TOP_SHARE) * pause_s
    usual_s = turn.lasted_s - pause_s
    shape_s = np.hypot(_TOP_SHARE_SIGMA * usual_s, _TOP_PAUSE_SIGMA * pause_s)
    sigma_s = np.hypot(shape_s, _TOP_NOISE_TIMES * turn.noise_s)
    sigma = float(min(sigma_s, _EVENLY * turn.lasted_s))
    return _checkpoint(CheckpointName.TOP, at_s, sigma)


def _impact(curves: SwingCurves) -> Checkpoint:
    return _shaft_at_ball(curves) or _ball_gone(curves) or _hands_returned(curves)


def _shaft_at_ball(curves: SwingCurves) -> Checkpoint | None:
    if curves.shaft is None:
        return None
    span = (curves.return_s - _AROUND_RETURN_S, curves.end_s)
    struck_deg = curves.ball_deg + _BEYOND_BALL_DEG
    at = first_crossing_s(curves.shaft, struck_deg, span, rising=True)
    if at is None:
        return None
    slower = _USUAL_DEG_S / max(curves.shaft.rate_at(at), 1.0)
    sigma_deg = slower * _BALL_DIRECTION_SIGMA_DEG
    sigma = crossing_sigma_s(curves.shaft, at, sigma_deg, _BALL_CURVE_TIMES)
    return _checkpoint(CheckpointName.IMPACT, at, _with_unseen(curves, at, sigma))


def _ball_gone(curves: SwingCurves) -> Checkpoint | None:
    gone = curves.ball_gone
    if gone is None:
        return None
    sigma_s = float(np.hypot(gone.sigma_ns * 1e-9, _BALL_HIDDEN_SIGMA_S))
    return _checkpoint(CheckpointName.IMPACT, gone.time_ns * 1e-9, sigma_s)


def _hands_returned(curves: SwingCurves) -> Checkpoint:
    return _checkpoint(CheckpointName.IMPACT, curves.return_s, _RETURN_SIGMA_S)


def _reached(
    curves: SwingCurves,
    curve: Curve | None,
    name: CheckpointName,
    angle: _Angle,
    span_s: tuple[float, float],
    rising: bool,
) -> Checkpoint | None:
    """When ``curve`` reaches an angle, spread by its own spread, the angle's and the level's."""
    if curve is None:
        return None
    at = first_crossing_s(curve, np.full_like(curve.values, angle.deg), span_s, rising)
    if at is None:
        return None
    smear_deg = angle.smear_share * curves.frames.smear_about_deg(at)
    angle_deg = float(np.linalg.norm([angle.sigma_deg, smear_deg, curves.level_sigma_deg]))
    sigma = crossing_sigma_s(curve, at, angle_deg, angle.curve_times)
    if curve is curves.shaft:
        sigma = _with_unseen(curves, at, sigma)
    elif curve is curves.arm:
        sigma *= curves.company_factor
    return _checkpoint(name, at, sigma)


def _with_unseen(curves: SwingCurves, at_s: float, sigma_s: float) -> float:
    """The spread of a moment, wider where pictures about it do not show the shaft."""
    if curves.frames.seen_near(at_s, _UNSEEN_S):
        return sigma_s
    return float(np.hypot(sigma_s, _UNSEEN_SIGMA_S))
