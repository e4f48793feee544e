"""Backswing time over downswing time."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measure import Measure, Moment, When
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.stance import View


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    raise NotImplementedError


MEASURE = Measure(
    name="tempo",
    definition="Backswing time over downswing time.",
    unit=Unit.RATIO,
    moment=Moment.WHOLE,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    take=_take,
)
