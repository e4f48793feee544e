"""Where the butt of the club is: from the middle of the hands back along the shaft."""

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.limbs import club_curve
from baycue.measures.marks import Sight
from baycue.measures.scale import Scale, scale_of
from baycue.swing.hands import grip_px

BUTT_BEHIND_HANDS_M = 0.10
"""Two hands of some 9 cm on the grip, the butt a little beyond; common practice, no source."""
BUTT_SIGMA_M = 0.02
"""How differently people hold a grip, and how well the pose model's hands lie on it; assumed."""


def hands_px(evidence: SwingEvidence) -> FloatArray:
    """The middle of the grip per pose, (N, 2) px."""
    return np.array([grip_px(p) for p in evidence.poses])


def butt_px(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """The butt per pose, (N, 2) px; NotMeasuredError if the shaft was not seen."""
    curve = club_curve(evidence)
    angles = np.radians(np.interp(evidence.times_s, curve.times_s, curve.values))
    along = np.column_stack([np.sin(angles) * evidence.stance.toward_target, np.cos(angles)])
    return np.asarray(hands_px(evidence) - BUTT_BEHIND_HANDS_M * scale.px_per_m * along)


def butt_seen_px(sight: Sight) -> FloatArray | None:
    """The butt in one picture, (2,) px, if the shaft is known there."""
    if sight.shaft is None:
        return None
    angle = np.radians(sight.shaft.angle_deg)
    along = np.array([np.sin(angle) * sight.stance.toward_target, np.cos(angle)])
    reach_px = BUTT_BEHIND_HANDS_M * scale_of(sight.evidence).px_per_m
    return np.asarray(grip_px(sight.pose) - reach_px * along)
