"""How far apart the elbows are."""

import numpy as np

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Dot, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.scale import scale_of
from baycue.measures.track import Track, frames
from baycue.plan.stance import View

_SIGMA_M, _TURNED_M = 0.022, 0.085
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    scale, stance = scale_of(evidence), evidence.stance
    between_px = evidence.track_px(stance.lead.elbow) - evidence.track_px(stance.trail.elbow)
    course = frames(evidence, np.linalg.norm(between_px, axis=1) / scale.px_per_m, 0.05, 2)
    return Track(course, each_sigma=_SIGMA_M, sigma_share=scale.sigma_share, turned_sigma=_TURNED_M)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    lead, trail = (sight.pose.pixel(s.elbow) for s in (sight.stance.lead, sight.stance.trail))
    return (
        Line(np.array([trail, lead]), Role.MEASURED),
        Dot(trail, Role.FROM),
        Dot(lead, Role.MEASURED),
    )


MEASURE = Measure(
    name="elbow separation",
    definition="How far the elbows are apart as seen face-on.",
    positive="always; smaller is tighter",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.OUT,
    doubt="elbows apart along the line of sight do not look it",
)
