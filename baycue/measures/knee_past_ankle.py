"""Lead knee ahead of lead ankle along the target line, face-on."""

import numpy as np

from baycue.measures.calibration import KNEE
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.lens import lean_deg
from baycue.measures.measure import Measure, Moment, When, checkpoint_of
from baycue.measures.measurement import Measurement, Unit
from baycue.measures.scale import Scale, scale_of
from baycue.plan.stance import View
from baycue.swing.local_fit import fit_at

_HALF_WIDTH_S = 0.07
_KNEE_ABOVE_ANKLE_SHARE = 0.285 - 0.039
"""Of stature (Drillis and Contini 1966); a camera that leans moves the knee over the ankle by
the angle times this height."""


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    """Positive toward the target, metres."""
    at = checkpoint_of(evidence, when.start)
    scale = scale_of(evidence)
    fitted = fit_at(evidence.times_s, _offsets_m(evidence, scale), at.time_ns * 1e-9, _HALF_WIDTH_S)
    value = KNEE.gain * fitted.value + KNEE.offset_m
    ankle = evidence.stance.lead.ankle
    above_m = _KNEE_ABOVE_ANKLE_SHARE * evidence.stature_m
    sigma = np.linalg.norm(
        [
            KNEE.gain * fitted.sigma,
            KNEE.gain * fitted.rate_per_s * at.sigma_ns * 1e-9,
            value * scale.sigma_share,
            KNEE.sigma_m,
            np.radians(evidence.level.sigma_deg) * above_m,
            np.radians(lean_deg(evidence.camera, evidence.track_px(ankle)[0])) * above_m,
        ]
    )
    return Measurement("knee past ankle", value, float(sigma), Unit.METRE)


def _offsets_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """Knee minus ankle toward the target per pose, (N,), metres.

    The bent knee is nearer the camera than the ankle, so off the picture's middle the line
    of sight shifts it outward by that depth times the slope of the line: pinhole geometry.
    """
    knee, ankle = evidence.stance.lead.knee, evidence.stance.lead.ankle
    knee_px, ankle_px = evidence.track_px(knee)[:, 0], evidence.track_px(ankle)[:, 0]
    depth = evidence.track_world_m(ankle)[:, 2] - evidence.track_world_m(knee)[:, 2]
    nearer_m = KNEE.depth_share * float(np.median(depth)) * scale.metres_per_model_metre
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
