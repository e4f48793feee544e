"""How far the head rises between two checkpoints."""

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.measure import Measure, Moment, When, checkpoint_of
from baycue.measures.measurement import Measurement, Unit
from baycue.measures.scale import SCALE_SIGMA_SHARE, scale_of
from baycue.plan.stance import View
from baycue.pose.pose import Landmark
from baycue.swing.local_fit import FittedValue, fit_at
from baycue.swing.swing import Checkpoint

_HALF_WIDTH_S = 0.07
_LANDMARK_SIGMA_SHARE = 0.004
"""Error of a change of the model's head height, as a share of stature, one sigma."""
_HEAD = (Landmark.LEFT_EAR, Landmark.RIGHT_EAR)


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    """Positive up, metres."""
    heights = _heights_m(evidence)
    start, end = (checkpoint_of(evidence, name) for name in (when.start, when.end))
    before, after = (_at(evidence, heights, c) for c in (start, end))
    rise = after.value - before.value
    sigma = np.linalg.norm(
        [
            before.sigma,
            after.sigma,
            before.rate_per_s * start.sigma_ns * 1e-9,
            after.rate_per_s * end.sigma_ns * 1e-9,
            rise * SCALE_SIGMA_SHARE,
            _LANDMARK_SIGMA_SHARE * evidence.stature_m,
        ]
    )
    return Measurement("head rise", rise, float(sigma), Unit.METRE)


def _heights_m(evidence: SwingEvidence) -> FloatArray:
    return np.asarray(-evidence.track_px(*_HEAD)[:, 1] / scale_of(evidence).px_per_m)


def _at(evidence: SwingEvidence, heights_m: FloatArray, checkpoint: Checkpoint) -> FittedValue:
    return fit_at(evidence.times_s, heights_m, checkpoint.time_ns * 1e-9, _HALF_WIDTH_S)


MEASURE = Measure(
    name="head rise",
    definition="How far the head rises between two checkpoints; negative is a drop.",
    unit=Unit.METRE,
    moment=Moment.CHANGE,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    take=_take,
)
