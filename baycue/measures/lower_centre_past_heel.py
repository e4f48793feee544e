"""The lower centre (mid-hip) ahead of where the lead heel stands, along the target line."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Mark, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.places import past_heel
from baycue.measures.sketch import at_address_px, from_plumb, middle_px
from baycue.measures.track import Track
from baycue.plan.stance import View
from baycue.pose.sides import LEFT, RIGHT

_CENTRE = (LEFT.hip, RIGHT.hip)
_SIGMA_M, _TURNED_M = 0.020, 0.020
"""Set on the bench's development swings (seed 2)."""


def _track(evidence: SwingEvidence) -> Track:
    return past_heel(evidence, _CENTRE, _SIGMA_M, _TURNED_M)


def _draw(sight: Sight) -> tuple[Mark, ...]:
    heel = at_address_px(sight, sight.stance.lead.heel)
    return from_plumb(sight, heel, middle_px(sight, *_CENTRE))


MEASURE = Measure(
    name="lower centre past heel",
    definition="The lower centre, the middle of both hips, ahead of where the lead heel stood "
    "at address, along the target line. The ball's place against that heel is the coach's to know.",
    positive="the centre is nearer the target than the heel",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.ALONG,
)
