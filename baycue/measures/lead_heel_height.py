"""How far the lead heel is off the ground."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way, Zero
from baycue.measures.measurement import Unit
from baycue.measures.places import BODY_PACE, height_m
from baycue.measures.scale import scale_of
from baycue.measures.sketch import raised
from baycue.measures.track import Track, frames
from baycue.plan.stance import View

_SIGMA_M = 0.02
"""Twice what development swings ask for, whose heels hardly rise."""


def _track(evidence: SwingEvidence) -> Track:
    scale = scale_of(evidence)
    heel = height_m(evidence, scale, evidence.stance.lead.heel)
    course = frames(evidence, heel, 0.07, 2, BODY_PACE)
    return Track(course, each_sigma=_SIGMA_M, sigma_share=scale.sigma_share)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    return raised(sight, sight.stance.lead.heel)


MEASURE = Measure(
    name="lead heel height",
    definition="How far the lead heel has risen since address or another checkpoint.",
    positive="off the ground",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    zero=Zero.ADDRESS,
    draw=_draw,
    way=Way.UP,
    doubt="the pose model guesses at heels, which the shoe hides, and a toe turned out looks like "
    "a heel raised",
)
