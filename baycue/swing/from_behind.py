"""Checkpoints down the line, told by the hands.

From behind neither the shaft nor the lead arm shows as an angle, for both point along the line of
sight; but the hands' height does.  P2, P3 and P5 are where the wrists pass a height against the
shoulders; P6 is a share of the way from P5 to impact.

The levels are the means and the spreads the deviations over development swings (the bench's seed
4, down the line).  They follow from how the synthetic golfers' arms and wrists
work together; real ones were not measured.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import Pose
from baycue.swing.crossing import crossing_sigma_s, first_crossing_s
from baycue.swing.curve import Curve, readings
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import SHOULDERS, WRISTS, bodies_px, middle_px
from baycue.swing.shaft_curve import on_grid
from baycue.swing.swing import Checkpoint, CheckpointName

FloatArray = NDArray[np.float64]

_SIGMA, _JERK_DENSITY = 0.015, 3e3
"""Of the wrists' height in one frame, body lengths, and how freely its acceleration drifts."""


@dataclass(frozen=True, slots=True)
class _Height:
    """The wrists above mid-shoulder, body lengths (ankle to hip to shoulder), and one sigma."""

    bodies: float
    sigma: float


_P2, _P3, _P5 = _Height(-0.323, 0.034), _Height(-0.089, 0.041), _Height(-0.064, 0.037)
P6_SHARE, P6_SHARE_SIGMA = 0.68, 0.06
"""Of the time from P5 to impact.  The synthetic swings differ by 0.024; golfers may by more."""
_STILL_S = 0.3
"""The first frames of a swing's are all of standing still."""
RISEN, TAKEAWAY_SHARE = 0.08, 0.91
"""At the takeaway the wrists start along the line of sight.  They are ``RISEN`` body lengths up
when the rest of the backswing lasts 1 / ``TAKEAWAY_SHARE`` times as long as it has lasted."""


def hand_height(strike: StrikeSeen, poses: tuple[Pose, ...]) -> Curve:
    """The wrists above mid-shoulder over time, body lengths."""
    times = np.array([p.stamp_ns for p in poses]) * 1e-9
    seen = readings(times, _heights(strike, poses), np.full(len(times), _SIGMA))
    return on_grid(seen, _JERK_DENSITY)


def takeaway_from_behind_s(strike: StrikeSeen, hands: Curve) -> float | None:
    """When the hands began to go back; None if they are not seen to rise."""
    top_s = strike.top_ns * 1e-9
    still = hands.times_s <= hands.times_s[0] + _STILL_S
    risen = np.median(hands.values[still]) + RISEN
    span = (hands.times_s[0], top_s)
    at = first_crossing_s(hands, np.full_like(hands.values, risen), span, rising=True)
    return None if at is None else at - TAKEAWAY_SHARE * (top_s - at)


def told_by_hands(
    strike: StrikeSeen, hands: Curve, takeaway: Checkpoint, impact: Checkpoint
) -> tuple[Checkpoint, ...]:
    """P2, P3, P5 and P6, those that are found."""
    top_s = _highest_s(strike, hands)
    back, down = (takeaway.time_ns * 1e-9, top_s), (top_s, impact.time_ns * 1e-9)
    p5 = _passed(hands, CheckpointName.P5, _P5, down, rising=False)
    found = (
        _passed(hands, CheckpointName.P2, _P2, back, rising=True),
        _passed(hands, CheckpointName.P3, _P3, back, rising=True),
        p5,
        _p6(p5, impact) if p5 else None,
    )
    return tuple(checkpoint for checkpoint in found if checkpoint)


def _p6(p5: Checkpoint, impact: Checkpoint) -> Checkpoint:
    lasted_ns = impact.time_ns - p5.time_ns
    parts = [
        (1 - P6_SHARE) * p5.sigma_ns,
        P6_SHARE * impact.sigma_ns,
        P6_SHARE_SIGMA * lasted_ns,
    ]
    at_ns = p5.time_ns + round(P6_SHARE * lasted_ns)
    return Checkpoint(CheckpointName.P6, at_ns, round(float(np.linalg.norm(parts))))


def _passed(
    hands: Curve, name: CheckpointName, height: _Height, span_s: tuple[float, float], rising: bool
) -> Checkpoint | None:
    level = np.full_like(hands.values, height.bodies)
    at = first_crossing_s(hands, level, span_s, rising)
    if at is None:
        return None
    sigma_s = crossing_sigma_s(hands, at, height.sigma)
    return Checkpoint(name, round(at * 1e9), max(round(sigma_s * 1e9), 1))


def _highest_s(strike: StrikeSeen, hands: Curve) -> float:
    before = hands.times_s <= strike.return_ns * 1e-9
    return float(hands.times_s[before][np.argmax(hands.values[before])])


def _heights(strike: StrikeSeen, poses: tuple[Pose, ...]) -> FloatArray:
    """As seen in each pose, (N,), the body as long as it is at address."""
    still = [p for p in poses if p.stamp_ns <= strike.takeaway_ns] or [poses[0]]
    body_px = float(np.median(bodies_px(still)))
    drop_px = [(middle_px(p, *SHOULDERS) - middle_px(p, *WRISTS))[1] for p in poses]
    return np.array(drop_px) / body_px
