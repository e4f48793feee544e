"""How far the head rises between two checkpoints."""

import numpy as np

from baycue.measures.calibration import HEAD
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.measure import Measure, Moment, When, checkpoint_of
from baycue.measures.measurement import Measurement, Unit
from baycue.measures.scale import Scale, address_poses, scale_of
from baycue.measures.steady import fit_steady, steady
from baycue.plan.stance import View
from baycue.pose.pose import Landmark
from baycue.swing.local_fit import FittedValue
from baycue.swing.swing import Checkpoint, CheckpointName

_HALF_WIDTH_S = 0.05
_FASTEST_M_S, _SLACK_M = 1.0, 0.03


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    """Positive up, metres."""
    scale = scale_of(evidence)
    heights = ear_heights_m(evidence, scale)
    start, end = (checkpoint_of(evidence, name) for name in (when.start, when.end))
    before, after = (height_at(evidence, heights, c) for c in (start, end))
    rise = HEAD.gain * (after.value - before.value)
    sigma = np.linalg.norm(
        [
            before.sigma,
            after.sigma,
            before.rate_per_s * start.sigma_ns * 1e-9,
            after.rate_per_s * end.sigma_ns * 1e-9,
            rise * scale.sigma_share,
            HEAD.sigma_m * evidence.company_factor,
        ]
    )
    return Measurement("head rise", rise, float(sigma), Unit.METRE)


def ear_heights_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """The ears above some fixed level per pose, (N,), metres."""
    ears_px = evidence.track_px(Landmark.LEFT_EAR, Landmark.RIGHT_EAR)[:, 1]
    return np.asarray(-ears_px / scale.px_per_m)


def height_at(
    evidence: SwingEvidence, heights_m: FloatArray, checkpoint: Checkpoint
) -> FittedValue:
    """The height at a checkpoint; at address the mean over the whole time of standing still."""
    if checkpoint.name is CheckpointName.ADDRESS:
        still = heights_m[: len(address_poses(evidence))]
        spread = float(np.std(still)) / np.sqrt(len(still))
        return FittedValue(float(np.median(still)), 0.0, spread)
    kept = steady(evidence.times_s, heights_m, _FASTEST_M_S, _SLACK_M)
    at_s = checkpoint.time_ns * 1e-9
    return fit_steady(evidence.times_s, heights_m, kept, at_s, _HALF_WIDTH_S, degree=1)


MEASURE = Measure(
    name="head rise",
    definition="How far the head rises between two checkpoints; negative is a drop.",
    unit=Unit.METRE,
    moment=Moment.CHANGE,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    take=_take,
)
