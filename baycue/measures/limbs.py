"""Angles of arms and shaft in the picture, and gaps between parts."""

from functools import lru_cache

import numpy as np

from baycue.club.reading import ShaftReading
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.measurement import NotMeasuredError
from baycue.measures.track import Frames, frames
from baycue.pose.pose import Landmark
from baycue.swing.arms import direction_deg
from baycue.swing.curve import Curve
from baycue.swing.shaft_curve import shaft_curve

_HALF_WIDTH_S, _DEGREE = 0.05, 2
"""Short: on the way down an arm turns by 20 degrees from frame to frame."""


def limb_deg(evidence: SwingEvidence, start: Landmark, end: Landmark, zero_deg: float) -> Frames:
    """How far a limb is turned from ``zero_deg``, positive toward the target, deg.

    Directions in the picture: 0 straight down, +90 toward the target.
    """
    angles = direction_deg(evidence.track_px(start), evidence.track_px(end), evidence.stance)
    turned = np.unwrap(angles, period=360.0) - zero_deg
    return frames(evidence, turned, _HALF_WIDTH_S, _DEGREE)


def club_curve(evidence: SwingEvidence) -> Curve:
    """Which way the shaft points, deg; NotMeasuredError if too few pictures show it."""
    curve = _club_curve(evidence.shaft)
    if curve is None:
        raise NotMeasuredError("the shaft was not seen in enough pictures")
    return curve


@lru_cache(maxsize=2)
def _club_curve(shaft: tuple[ShaftReading, ...]) -> Curve | None:
    return shaft_curve(shaft)


def beside_line_px(point: FloatArray, start: FloatArray, end: FloatArray) -> FloatArray:
    """How far (N, 2) points are from the lines through two others, (N,) px."""
    along, away = end - start, point - start
    across = along[:, 0] * away[:, 1] - along[:, 1] * away[:, 0]
    return np.asarray(np.abs(across) / np.maximum(np.linalg.norm(along, axis=1), 1e-9))
