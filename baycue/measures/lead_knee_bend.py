"""How far the lead knee is bent."""

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure
from baycue.measures.measurement import Unit
from baycue.measures.sketch import opening
from baycue.measures.track import Track, frames
from baycue.plan.stance import View

_SIGMA_DEG, _TURNED_DEG = 16.0, 32.0
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    """From the pose model's own idea of the leg in space."""
    lead = evidence.stance.lead
    hip, knee, ankle = (
        evidence.track_world_m(joint) for joint in (lead.hip, lead.knee, lead.ankle)
    )
    course = frames(evidence, _between_deg(knee - hip, ankle - knee), 0.07, 2)
    return Track(course, each_sigma=_SIGMA_DEG, turned_sigma=_TURNED_DEG)


def _between_deg(one: FloatArray, other: FloatArray) -> FloatArray:
    """The angle between (N, 3) directions, (N,)."""
    lengths = np.linalg.norm(one, axis=1) * np.linalg.norm(other, axis=1)
    cosines = (one * other).sum(axis=1) / np.maximum(lengths, 1e-9)
    return np.asarray(np.degrees(np.arccos(np.clip(cosines, -1.0, 1.0))))


def _draw(sight: Sight) -> tuple[Mark, ...]:
    lead = sight.stance.lead
    hip, knee, ankle = (sight.pose.pixel(j) for j in (lead.hip, lead.knee, lead.ankle))
    return opening(sight, knee, knee - hip, ankle - knee)


MEASURE = Measure(
    name="lead knee bend",
    definition="The angle between lead thigh and lead shank in space, 0 when the leg is straight.",
    positive="always; larger is more bent",
    unit=Unit.DEGREE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    doubt="the knee bends toward the camera, and its depth is the pose model's guess",
)
