"""Backswing time over downswing time."""

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measure import Measure
from baycue.measures.measurement import Unit
from baycue.measures.take import Taken
from baycue.measures.when import checkpoint_of
from baycue.plan.stance import View
from baycue.swing.swing import CheckpointName


def _whole(evidence: SwingEvidence) -> Taken:
    """Takeaway to top over top to impact."""
    takeaway = checkpoint_of(evidence, CheckpointName.TAKEAWAY)
    top = checkpoint_of(evidence, CheckpointName.TOP)
    impact = checkpoint_of(evidence, CheckpointName.IMPACT)
    back_ns, down_ns = top.time_ns - takeaway.time_ns, impact.time_ns - top.time_ns
    ratio = back_ns / down_ns
    from_takeaway = takeaway.sigma_ns / down_ns
    from_top = top.sigma_ns * (1 + ratio) / down_ns
    from_impact = impact.sigma_ns * ratio / down_ns
    return Taken(ratio, (from_takeaway**2 + from_top**2 + from_impact**2) ** 0.5)


MEASURE = Measure(
    name="tempo",
    definition="Backswing time over downswing time: takeaway to top over top to impact.",
    positive="always; 3 is a backswing of three times the downswing",
    unit=Unit.RATIO,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    whole=_whole,
)
