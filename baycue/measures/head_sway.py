"""How far the head has gone along the target line."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way, Zero
from baycue.measures.measurement import Unit
from baycue.measures.places import shift_along
from baycue.measures.sketch import shifted
from baycue.measures.track import Track
from baycue.plan.stance import View
from baycue.pose.pose import Landmark

_EARS = (Landmark.LEFT_EAR, Landmark.RIGHT_EAR)
_SIGMA_M, _TURNED_M = 0.006, 0.030
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    return shift_along(evidence, _EARS, _SIGMA_M, _TURNED_M)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    return shifted(sight, *_EARS)


MEASURE = Measure(
    name="head sway",
    definition="How far the middle between the ears has gone along the target line since address "
    "or another checkpoint.",
    positive="toward the target",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    zero=Zero.ADDRESS,
    draw=_draw,
    way=Way.ALONG,
)
