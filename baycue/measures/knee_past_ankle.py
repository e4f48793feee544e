"""Lead knee ahead of lead ankle along the target line; positive toward the target."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measure import Measure, Moment, When
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.stance import View


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    raise NotImplementedError


MEASURE = Measure(
    name="knee past ankle",
    definition="Lead knee ahead of lead ankle along the target line; positive toward the target.",
    unit=Unit.METRE,
    moment=Moment.AT,
    views=frozenset({View.FACE_ON}),
    take=_take,
)
