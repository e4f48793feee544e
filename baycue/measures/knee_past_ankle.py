"""Lead knee ahead of lead ankle along the target line, face-on."""

import numpy as np

from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.measure import Measure, Moment, When, checkpoint_of
from baycue.measures.measurement import Measurement, Unit
from baycue.measures.scale import SCALE_SIGMA_SHARE, Scale, scale_of
from baycue.plan.stance import View
from baycue.swing.local_fit import fit_at

_HALF_WIDTH_S = 0.07
_LANDMARK_SIGMA_SHARE = 0.0045
"""Error of the model's knee-to-ankle offset, as a share of stature, one sigma."""
_SQUARENESS_SIGMA_DEG = 1.5
"""How far a camera set up by eye is from square and level, one sigma."""


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    """Positive toward the target, metres."""
    at = checkpoint_of(evidence, when.start)
    scale = scale_of(evidence)
    fitted = fit_at(evidence.times_s, _offsets_m(evidence, scale), at.time_ns * 1e-9, _HALF_WIDTH_S)
    shin_m = 0.246 * evidence.stature_m
    sigma = np.linalg.norm(
        [
            fitted.sigma,
            fitted.rate_per_s * at.sigma_ns * 1e-9,
            fitted.value * SCALE_SIGMA_SHARE,
            _LANDMARK_SIGMA_SHARE * evidence.stature_m,
            np.radians(_SQUARENESS_SIGMA_DEG) * shin_m / 2,
        ]
    )
    return Measurement("knee past ankle", fitted.value, float(sigma), Unit.METRE)


def _offsets_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """Knee minus ankle toward the target per pose, (N,), metres.

    The bent knee is nearer the camera than the ankle, so off the picture's middle the line
    of sight shifts it outward by that depth times the slope of the line: pinhole geometry.
    """
    knee, ankle = evidence.stance.lead.knee, evidence.stance.lead.ankle
    knee_px, ankle_px = evidence.track_px(knee)[:, 0], evidence.track_px(ankle)[:, 0]
    depth = evidence.track_world_m(ankle)[:, 2] - evidence.track_world_m(knee)[:, 2]
    nearer_m = float(np.median(depth)) * scale.metres_per_model_metre
    slope = (knee_px - evidence.camera.width_px / 2) / evidence.camera.focal_px
    across_m = (knee_px - ankle_px) / scale.px_per_m - slope * nearer_m
    return np.asarray(across_m * evidence.stance.toward_target)


MEASURE = Measure(
    name="knee past ankle",
    definition="Lead knee ahead of lead ankle along the target line; positive to the target.",
    unit=Unit.METRE,
    moment=Moment.AT,
    views=frozenset({View.FACE_ON}),
    take=_take,
)
