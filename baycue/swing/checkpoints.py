"""Address to P8 read off a swing's curves, each between frames and with its one-sigma.

Shaft angles: -90 is parallel to the ground pointing away from the target, so P2 and P6
are where the shaft passes -90 going back and coming down, P8 where it passes +90.  P3 and
P5 are where the lead arm passes -90.  Impact is where the shaft points at where the ball
lay; if the club was hidden, when the ball is seen to go, or when the hands are back, with a
wider spread.  P6 is then told from the arms, wider still.
"""

import numpy as np

from baycue.swing.crossing import crossing_sigma_s, first_crossing_s, lowest
from baycue.swing.curve import Curve
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves

_BACK_PARALLEL_DEG, _THROUGH_PARALLEL_DEG = -90.0, 90.0
_HORIZON_SIGMA_DEG = 2.0
"""What a camera not quite level and a swing plane seen aslant do to "parallel"; one sigma."""
_BALL_DIRECTION_SIGMA_DEG = 4.0
_ADDRESS_BEFORE_S = 0.10
_TAKEAWAY_SIGMA_S, _TAKEAWAY_FROM_BEHIND_SIGMA_S = 0.033, 0.15
"""From behind, the hands start along the line of sight and hardly move in the picture."""
_AROUND_TOP_S = 0.25
_AROUND_RETURN_S = 0.09
_ARM_PARALLEL_SEEN_DEG, _ARM_PARALLEL_SIGMA_DEG = -81.0, 5.0
"""How the pose model draws a lead arm that is parallel: it sets the turned lead shoulder low.
Seen on synthetic swings."""
_ARM_ALONE_P6_DEG, _ARM_ALONE_SIGMA_DEG = -35.0, 15.0
_RETURN_SIGMA_S = 0.025
_HANDS_TOP_SIGMA_S = 0.04


def find_checkpoints(curves: SwingCurves) -> tuple[Checkpoint, ...]:
    """The checkpoints from address to P8, in order of time; what cannot be told is left out."""
    found = (
        _address(curves),
        _takeaway(curves),
        _p2(curves),
        _arm_parallel(curves, CheckpointName.P3, going_back=True),
        _top(curves),
        _arm_parallel(curves, CheckpointName.P5, going_back=False),
        _p6(curves),
        _impact(curves),
        _p8(curves),
    )
    return tuple(sorted((c for c in found if c), key=lambda c: c.time_ns))


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
    return _level(curves.shaft, CheckpointName.P2, _BACK_PARALLEL_DEG, span, rising=False)


def _p8(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.return_s - _AROUND_RETURN_S, curves.end_s)
    return _level(curves.shaft, CheckpointName.P8, _THROUGH_PARALLEL_DEG, span, rising=True)


def _p6(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.top_s, curves.end_s)
    if curves.shaft is not None:
        return _level(curves.shaft, CheckpointName.P6, _BACK_PARALLEL_DEG, span, rising=True)
    return _level(
        curves.arm, CheckpointName.P6, _ARM_ALONE_P6_DEG, span, True, _ARM_ALONE_SIGMA_DEG
    )


def _arm_parallel(curves: SwingCurves, name: CheckpointName, going_back: bool) -> Checkpoint | None:
    span = (curves.takeaway_s, curves.top_s) if going_back else (curves.top_s, curves.return_s)
    return _level(
        curves.arm,
        name,
        _ARM_PARALLEL_SEEN_DEG,
        span,
        rising=not going_back,
        level_sigma_deg=_ARM_PARALLEL_SIGMA_DEG,
    )


def _top(curves: SwingCurves) -> Checkpoint:
    """Where the shaft turns round, else where the hands are highest."""
    span = (curves.top_s - _AROUND_TOP_S, curves.top_s + _AROUND_TOP_S)
    turned = lowest(curves.shaft, span) if curves.shaft is not None else None
    return _checkpoint(CheckpointName.TOP, *(turned or (curves.hands_top_s, _HANDS_TOP_SIGMA_S)))


def _impact(curves: SwingCurves) -> Checkpoint:
    return _shaft_at_ball(curves) or _ball_gone(curves) or _hands_returned(curves)


def _shaft_at_ball(curves: SwingCurves) -> Checkpoint | None:
    if curves.shaft is None:
        return None
    span = (curves.return_s - _AROUND_RETURN_S, curves.end_s)
    at = first_crossing_s(curves.shaft, curves.ball_deg, span, rising=True)
    if at is None:
        return None
    sigma = crossing_sigma_s(curves.shaft, at, _BALL_DIRECTION_SIGMA_DEG)
    return _checkpoint(CheckpointName.IMPACT, at, sigma)


def _ball_gone(curves: SwingCurves) -> Checkpoint | None:
    gone = curves.ball_gone
    return Checkpoint(CheckpointName.IMPACT, gone.time_ns, gone.sigma_ns) if gone else None


def _hands_returned(curves: SwingCurves) -> Checkpoint:
    return _checkpoint(CheckpointName.IMPACT, curves.return_s, _RETURN_SIGMA_S)


def _level(
    curve: Curve | None,
    name: CheckpointName,
    level_deg: float,
    span_s: tuple[float, float],
    rising: bool,
    level_sigma_deg: float = _HORIZON_SIGMA_DEG,
) -> Checkpoint | None:
    if curve is None:
        return None
    at = first_crossing_s(curve, np.full_like(curve.values, level_deg), span_s, rising)
    if at is None:
        return None
    return _checkpoint(name, at, crossing_sigma_s(curve, at, level_sigma_deg))
