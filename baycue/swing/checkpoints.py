"""Address to P8 read off a swing's curves, each between frames and with its one-sigma.

P2, P6 and P8 are where the shaft is parallel to the ground: see ``shaft_parallel``.  P3 and P5 are
where the lead arm passes about -90.  Impact is where the shaft points at where the ball lay; if the
club was hidden, when the ball is seen to go, or when the hands are back, with a wider spread.  Down
the line the hands tell all that shaft and arm tell face-on: see ``from_behind``.
"""

from dataclasses import replace

from baycue.swing.from_behind import told_by_hands
from baycue.swing.impact import find_impact
from baycue.swing.reached import Angle, checkpoint, reached
from baycue.swing.shaft_parallel import find_p2, find_p6, find_p8
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves
from baycue.swing.top import find_top

_P3 = Angle(-89.6, 0.8, curve_times=0.18, misfit_share=0.47)
_P5 = Angle(-88.7, 1.21, curve_times=0.18, misfit_share=0.47)
"""The lead arm about where it turns: see ``swing.arms``.  The centres were set on 269 development
swings, of the bench's seeds 7 and 8, with nobody walking by, and moved by 0.1 and 0.2 deg on 500 of
seeds 9 and 10; on these the spreads were set, of takeaway and company too, and moved by 2 to 6 % on
seed 12's 500 and on 1122 of seeds 9, 10, 12 and 13."""
_COMPANY_TIMES = 1.1
_COMPANY_TIMES_BESIDE = {CheckpointName.P3: 1.3, CheckpointName.P8: 1.5}
"""Somebody close behind is now and then taken for club or arm: every spread is so much larger, most
where club or lead arm lies beside the body."""
_ADDRESS_BEFORE_S = 0.10
_TAKEAWAY_SIGMA_S, _TAKEAWAY_FROM_BEHIND_SIGMA_S = 0.011, 0.055
"""From behind, the hands start along the line of sight and hardly move in the picture."""


def find_checkpoints(curves: SwingCurves) -> tuple[Checkpoint, ...]:
    """The checkpoints from address to P8, in order of time; what cannot be told is left out."""
    takeaway, impact = _takeaway(curves), find_impact(curves)
    ends = (_address(curves), takeaway, find_top(curves), impact, find_p8(curves))
    found = (*ends, *_between(curves, takeaway, impact))
    told = (c for c in found if c)
    if curves.in_company:
        told = (_in_company(c) for c in told)
    return tuple(sorted(told, key=lambda c: c.time_ns))


def _in_company(found: Checkpoint) -> Checkpoint:
    times = _COMPANY_TIMES_BESIDE.get(found.name, _COMPANY_TIMES)
    return replace(found, sigma_ns=round(times * found.sigma_ns))


def _between(
    curves: SwingCurves, takeaway: Checkpoint, impact: Checkpoint
) -> tuple[Checkpoint | None, ...]:
    """P2, P3, P5 and P6."""
    if curves.hands is not None:
        return told_by_hands(curves.strike, curves.hands, takeaway, impact)
    return find_p2(curves), _p3(curves), _p5(curves), find_p6(curves)


def _address(curves: SwingCurves) -> Checkpoint:
    at = curves.takeaway_s - _ADDRESS_BEFORE_S
    return checkpoint(CheckpointName.ADDRESS, at, _ADDRESS_BEFORE_S / 2)


def _takeaway(curves: SwingCurves) -> Checkpoint:
    sigma = _TAKEAWAY_SIGMA_S if curves.arm is not None else _TAKEAWAY_FROM_BEHIND_SIGMA_S
    return checkpoint(CheckpointName.TAKEAWAY, curves.takeaway_s, sigma)


def _p3(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.takeaway_s, curves.top_s)
    return reached(curves, curves.arm, CheckpointName.P3, _P3, span, rising=False)


def _p5(curves: SwingCurves) -> Checkpoint | None:
    span = (curves.top_s, curves.return_s)
    return reached(curves, curves.arm, CheckpointName.P5, _P5, span, rising=True)
