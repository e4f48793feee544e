"""Lead knee ahead of lead ankle along the target line, face-on."""

import numpy as np

from baycue.measures.bearing import bearing_of
from baycue.measures.calibration import KNEE
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.lens import lean_deg
from baycue.measures.marks import Dot, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way
from baycue.measures.measurement import Unit
from baycue.measures.scale import Scale, scale_of
from baycue.measures.steady import Pace
from baycue.measures.track import Company, Frames, Track
from baycue.plan.stance import View

_HALF_WIDTH_S, _DEGREE = 0.07, 2
_TURNED_M = 0.020
"""Set on the bench's development swings (seed 2)."""
_PACE = Pace(fastest=2.5, slack=0.05)
_KNEE_ABOVE_ANKLE_SHARE = 0.285 - 0.039
"""Of stature (Drillis and Contini 1966); a camera that leans moves the knee over the ankle by
the angle times this height."""


def _track(evidence: SwingEvidence) -> Track:
    scale, bearing = scale_of(evidence), bearing_of(evidence)
    nearer_m = KNEE.depth_share * nearer_by_m(evidence, scale)
    drawn_left_m = KNEE.drawn_left_m * evidence.stance.toward_target
    seen_m = across_m(evidence, scale) + drawn_left_m + np.sin(np.radians(bearing.deg)) * nearer_m
    values_m = KNEE.gain * seen_m + KNEE.offset_m
    kept = _PACE.steady(evidence.times_s, seen_m)
    company = Company(seen_m) if evidence.in_company else None
    ankle = evidence.stance.lead.ankle
    above_m = _KNEE_ABOVE_ANKLE_SHARE * evidence.stature_m
    shared = [
        np.radians(bearing.sigma_deg) * nearer_m,
        np.radians(evidence.level.sigma_deg) * above_m,
        np.radians(lean_deg(evidence.camera, evidence.track_px(ankle)[0])) * above_m,
    ]
    return Track(
        Frames(evidence.times_s, values_m, kept, _HALF_WIDTH_S, _DEGREE, company),
        each_sigma=KNEE.sigma_m,
        turned_sigma=_TURNED_M,
        shared_sigma=float(np.linalg.norm(shared)),
        sigma_share=scale.sigma_share,
    )


def across_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """Knee minus ankle toward the target per pose, as the model draws them, (N,), metres."""
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


def _draw(sight: Sight) -> tuple[Mark, ...]:
    """A plumb line up from the ankle, and from it to the knee a bar of the distance."""
    lead = sight.stance.lead
    knee, ankle = sight.pose.pixel(lead.knee), sight.pose.pixel(lead.ankle)
    above = np.array([ankle[0], knee[1]])
    rise = np.array([ankle[0], knee[1] - 0.25 * (ankle[1] - knee[1])])
    return (
        Line(np.array([ankle, rise]), Role.FROM),
        Dot(ankle, Role.FROM),
        Line(np.array([above, knee]), Role.MEASURED),
        Dot(knee, Role.MEASURED),
    )


MEASURE = Measure(
    name="knee past ankle",
    definition="Lead knee ahead of lead ankle along the target line.",
    positive="the knee is nearer the target than the ankle",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON}),
    track=_track,
    draw=_draw,
    way=Way.ALONG,
)
