"""The butt of the club ahead of the belt buckle (mid-hip) along the target line."""

import numpy as np

from baycue.measures.bearing import bearing_of
from baycue.measures.butt import BUTT_BEHIND_HANDS_M, BUTT_SIGMA_M, butt_seen_px, hands_px
from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import club_curve
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.places import BODY_PACE, along_m, aslant_m
from baycue.measures.scale import scale_of
from baycue.measures.sketch import from_plumb, middle_px
from baycue.measures.track import Course, Smooth, Sum, Track, frames
from baycue.plan.stance import View
from baycue.pose.sides import LEFT, RIGHT
from baycue.swing.curve import Curve

_HIPS = (LEFT.hip, RIGHT.hip)
_SIGMA_M, _TURNED_M = 0.025, 0.045
"""Set on the bench's development swings (seed 2)."""
_DEPTH_M, _DEPTH_SIGMA_M = 0.30, 0.15
"""How much nearer the camera the hands are than the hips about P6; assumed."""


def _track(evidence: SwingEvidence) -> Track:
    scale, bearing = scale_of(evidence), bearing_of(evidence)
    toward = evidence.stance.toward_target
    hands = hands_px(evidence)[:, 0] * toward / scale.px_per_m
    aslant = np.sin(np.radians(bearing.deg)) * _DEPTH_M
    parts: list[tuple[float, Course]] = [
        (1.0, frames(evidence, hands + aslant, 0.05, 2)),
        (-1.0, frames(evidence, along_m(evidence, scale, *_HIPS), 0.07, 2, BODY_PACE)),
        (-BUTT_BEHIND_HANDS_M, Smooth(_sine(club_curve(evidence)))),
    ]
    return Track(
        Sum(tuple(parts)),
        each_sigma=float(np.hypot(_SIGMA_M, BUTT_SIGMA_M)),
        shared_sigma=aslant_m(evidence, _DEPTH_SIGMA_M),
        sigma_share=scale.sigma_share,
        turned_sigma=_TURNED_M,
    )


def _sine(curve: Curve) -> Curve:
    """How far toward the target a shaft one long points."""
    angles = np.radians(curve.values)
    slope = np.radians(np.cos(angles))
    return Curve(curve.times_s, np.sin(angles), slope * curve.rates, np.abs(slope) * curve.sigmas)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    butt = butt_seen_px(sight)
    return () if butt is None else from_plumb(sight, middle_px(sight, *_HIPS), butt)


MEASURE = Measure(
    name="butt to buckle",
    definition="The butt of the club, 10 cm back along the shaft from the middle of the hands, "
    "ahead of the middle of both hips along the target line.",
    positive="the butt is nearer the target than the buckle",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.ALONG,
)
