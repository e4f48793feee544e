"""How far the pelvis has risen."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way, Zero
from baycue.measures.measurement import Unit
from baycue.measures.places import BODY_PACE, height_m
from baycue.measures.scale import scale_of
from baycue.measures.sketch import raised
from baycue.measures.track import Track, frames
from baycue.plan.stance import View
from baycue.pose.sides import LEFT, RIGHT

_HIPS = (LEFT.hip, RIGHT.hip)
_SIGMA_M, _TURNED_M = 0.012, 0.042
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    scale = scale_of(evidence)
    course = frames(evidence, height_m(evidence, scale, *_HIPS), 0.07, 2, BODY_PACE)
    return Track(course, each_sigma=_SIGMA_M, sigma_share=scale.sigma_share, turned_sigma=_TURNED_M)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    return raised(sight, *_HIPS)


MEASURE = Measure(
    name="pelvis height",
    definition="How far the middle of both hips has risen since address or another checkpoint; "
    "from top to P6 it tells down before up.",
    positive="up, negative is a drop",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    track=_track,
    zero=Zero.ADDRESS,
    draw=_draw,
    way=Way.UP,
)
