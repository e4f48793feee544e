"""When a curve of a swing reaches the angle that marks a checkpoint, and how surely."""

from dataclasses import dataclass

import numpy as np

from baycue.swing.crossing import crossing_sigma_s, first_crossing_s
from baycue.swing.curve import Curve
from baycue.swing.misfit import misfit_deg
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import SwingCurves

AROUND_RETURN_S = 0.09
"""About when the hands are back at the ball, the club passes it."""
_UNSEEN_S, _UNSEEN_SIGMA_S = 0.040, 0.030
"""With no picture of the shaft so near, what bridges the gap can be off by a frame."""


@dataclass(frozen=True, slots=True)
class Angle:
    """An angle in the picture that marks a checkpoint, and how surely it does, one sigma.

    ``smear_share``: so much of the shaft's smear is added to that, for light and the club's own
    gloss make one part of a smear show more than another.  ``curve_times``: how much larger the
    curve's own spread is than it says, for pictures next to each other err alike.
    ``misfit_share``: so much of how badly the curve fits there is added too.
    """

    deg: float
    sigma_deg: float
    smear_share: float = 0.0
    curve_times: float = 1.0
    misfit_share: float = 0.0


def checkpoint(name: CheckpointName, time_s: float, sigma_s: float) -> Checkpoint:
    """In whole nanoseconds, the sigma at least one."""
    return Checkpoint(name, round(time_s * 1e9), max(round(sigma_s * 1e9), 1))


def reached(
    curves: SwingCurves,
    curve: Curve | None,
    name: CheckpointName,
    angle: Angle,
    span_s: tuple[float, float],
    rising: bool,
) -> Checkpoint | None:
    """When ``curve`` reaches an angle; how surely by its spread, the angle's and the level's."""
    if curve is None:
        return None
    at = first_crossing_s(curve, np.full_like(curve.values, angle.deg), span_s, rising)
    if at is None:
        return None
    smear_deg = angle.smear_share * curves.frames.smear_about_deg(at)
    seen = curves.shaft_seen if curve is curves.shaft else curves.arm_seen
    off_deg = angle.misfit_share * misfit_deg(curve, seen, at)
    parts_deg = [angle.sigma_deg, smear_deg, off_deg, curves.level_sigma_deg]
    sigma = crossing_sigma_s(curve, at, float(np.linalg.norm(parts_deg)), angle.curve_times)
    return checkpoint(name, at, with_unseen(curves, at, sigma) if curve is curves.shaft else sigma)


def with_unseen(curves: SwingCurves, at_s: float, sigma_s: float) -> float:
    """The spread of a moment, wider where pictures about it do not show the shaft."""
    if curves.frames.seen_near(at_s, _UNSEEN_S):
        return sigma_s
    return float(np.hypot(sigma_s, _UNSEEN_SIGMA_S))
