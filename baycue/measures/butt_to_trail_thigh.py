"""The gap between the butt of the club and the trail thigh."""

import numpy as np

from baycue.measures.butt import BUTT_SIGMA_M, butt_px, butt_seen_px
from baycue.measures.evidence import SwingEvidence
from baycue.measures.limbs import beside_line_px
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.scale import scale_of
from baycue.measures.sketch import gap
from baycue.measures.track import Track, frames
from baycue.plan.stance import View

_SIGMA_M, _TURNED_M = 0.06, 0.045
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    scale, trail = scale_of(evidence), evidence.stance.trail
    hip, knee = evidence.track_px(trail.hip), evidence.track_px(trail.knee)
    gaps = beside_line_px(butt_px(evidence, scale), hip, knee) / scale.px_per_m
    return Track(
        frames(evidence, gaps, 0.05, 2),
        each_sigma=float(np.hypot(_SIGMA_M, BUTT_SIGMA_M)),
        sigma_share=scale.sigma_share,
        turned_sigma=_TURNED_M,
    )


def _draw(sight: Sight) -> tuple[Mark, ...]:
    butt, trail = butt_seen_px(sight), sight.stance.trail
    if butt is None:
        return ()
    hip, knee = sight.pose.pixel(trail.hip), sight.pose.pixel(trail.knee)
    return gap(butt, hip, knee)


MEASURE = Measure(
    name="butt to trail thigh",
    definition="How far the butt of the club, 10 cm back along the shaft from the middle of the "
    "hands, is from the line through trail hip and trail knee as seen face-on.",
    positive="always; smaller is tighter",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.OUT,
    doubt="the hands are nearer the camera than the thigh, and one camera does not see by how much",
)
