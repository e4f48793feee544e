"""Lead knee ahead of lead ankle along the target line, face-on."""

import numpy as np

from baycue.measures.bearing import bearing_of
from baycue.measures.calibration import KNEE
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.lens import lean_deg
from baycue.measures.measure import Measure, Moment, When, checkpoint_of
from baycue.measures.measurement import Measurement, Unit
from baycue.measures.scale import Scale, scale_of
from baycue.measures.steady import fit_steady, steady
from baycue.plan.stance import View

_HALF_WIDTH_S = 0.07
_FASTEST_M_S, _SLACK_M = 2.5, 0.05
_KNEE_ABOVE_ANKLE_SHARE = 0.285 - 0.039
"""Of stature (Drillis and Contini 1966); a camera that leans moves the knee over the ankle by
the angle times this height."""


def _take(evidence: SwingEvidence, when: When) -> Measurement:
    """Positive toward the target, metres."""
    at, scale, bearing = (
        checkpoint_of(evidence, when.start),
        scale_of(evidence),
        bearing_of(evidence),
    )
    nearer_m = KNEE.depth_share * nearer_by_m(evidence, scale)
    offsets_m = across_m(evidence, scale) + np.sin(np.radians(bearing.deg)) * nearer_m
    kept = steady(evidence.times_s, offsets_m, _FASTEST_M_S, _SLACK_M)
    at_s = at.time_ns * 1e-9
    fitted = fit_steady(evidence.times_s, offsets_m, kept, at_s, _HALF_WIDTH_S, degree=2)
    value = KNEE.gain * fitted.value + KNEE.offset_m
    ankle = evidence.stance.lead.ankle
    above_m = _KNEE_ABOVE_ANKLE_SHARE * evidence.stature_m
    sigma = np.linalg.norm(
        [
            KNEE.gain * fitted.sigma,
            KNEE.gain * fitted.rate_per_s * at.sigma_ns * 1e-9,
            value * scale.sigma_share,
            KNEE.sigma_m * evidence.company_factor,
            np.radians(bearing.sigma_deg) * nearer_m,
            np.radians(evidence.level.sigma_deg) * above_m,
            np.radians(lean_deg(evidence.camera, evidence.track_px(ankle)[0])) * above_m,
        ]
    )
    return Measurement("knee past ankle", value, float(sigma), Unit.METRE)


def across_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """Knee minus ankle toward the target per pose, as the picture shows it, (N,), metres."""
    knee, ankle = evidence.stance.lead.knee, evidence.stance.lead.ankle
    across_px = evidence.track_px(knee)[:, 0] - evidence.track_px(ankle)[:, 0]
    return np.asarray(across_px * evidence.stance.toward_target / scale.px_per_m)


def nearer_by_m(evidence: SwingEvidence, scale: Scale) -> float:
    """How much nearer the camera the bent knee is than the ankle, as the pose model draws it.

    Seen from a bearing, that depth times its sine moves the knee along the target line: plane
    geometry.
    """
    knee, ankle = evidence.stance.lead.knee, evidence.stance.lead.ankle
    depth = evidence.track_world_m(ankle)[:, 2] - evidence.track_world_m(knee)[:, 2]
    return float(np.median(depth)) * scale.metres_per_model_metre


MEASURE = Measure(
    name="knee past ankle",
    definition="Lead knee ahead of lead ankle along the target line; positive to the target.",
    unit=Unit.METRE,
    moment=Moment.AT,
    views=frozenset({View.FACE_ON}),
    take=_take,
)
