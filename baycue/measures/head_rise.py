"""How far the head rises from the first checkpoint to the second; negative is a drop."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measure import Measure, Moment, When
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.stance import View


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    raise NotImplementedError


MEASURE = Measure(
    name="head rise",
    definition="How far the head rises from the first checkpoint to the second; negative is a drop.",
    unit=Unit.METRE,
    moment=Moment.CHANGE,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    take=_take,
)
