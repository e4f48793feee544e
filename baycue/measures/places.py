"""Where parts of the body are in the picture, in metres along the target line and up."""

import numpy as np

from baycue.measures.bearing import bearing_of
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.scale import Scale, address_poses, scale_of
from baycue.measures.steady import Pace
from baycue.measures.track import Track, frames
from baycue.pose.pose import Landmark

BODY_PACE = Pace(fastest=2.5, slack=0.05)
"""Metres a second, and metres, of knees, hips and shoulders."""


_HEEL_SIGMA_M = 0.02
"""The pose model's heel against a true one: of the order of its ankles' 1 to 15 mm (Needham and
others 2021) and more, for a shoe hides it; assumed."""
_TURN_DEPTH_M = 0.03
"""How far hips and shoulders go toward the camera or away as the body turns; assumed."""


def along_m(evidence: SwingEvidence, scale: Scale, *landmarks: Landmark) -> FloatArray:
    """The mean of some landmarks toward the target per pose, (N,), metres from some fixed place."""
    across_px = evidence.track_px(*landmarks)[:, 0]
    return np.asarray(across_px * evidence.stance.toward_target / scale.px_per_m)


def height_m(evidence: SwingEvidence, scale: Scale, *landmarks: Landmark) -> FloatArray:
    """The mean of some landmarks above some fixed level per pose, (N,), metres."""
    return np.asarray(-evidence.track_px(*landmarks)[:, 1] / scale.px_per_m)


def aslant_m(evidence: SwingEvidence, depth_m: float) -> float:
    """How far a step of ``depth_m`` along the line of sight seems to go along the target line.

    The sine of the camera's bearing times the step: plane geometry.  The bearing's own spread
    is in it.
    """
    bearing = bearing_of(evidence)
    seen = np.hypot(np.sin(np.radians(bearing.deg)), np.radians(bearing.sigma_deg))
    return float(seen) * depth_m


def shift_along(
    evidence: SwingEvidence, landmarks: tuple[Landmark, ...], sigma_m: float, turned_m: float
) -> Track:
    """How some landmarks shift along the target line.

    ``sigma_m``, ``turned_m``: the track's ``each_sigma`` and ``turned_sigma``, for how the pose
    model's place for them changes.
    """
    scale = scale_of(evidence)
    each = np.hypot(sigma_m, aslant_m(evidence, _TURN_DEPTH_M))
    course = frames(evidence, along_m(evidence, scale, *landmarks), 0.07, 2, BODY_PACE)
    return Track(
        course,
        each_sigma=float(each),
        sigma_share=scale.sigma_share,
        turned_sigma=turned_m,
    )


def past_heel(
    evidence: SwingEvidence, landmarks: tuple[Landmark, ...], sigma_m: float, turned_m: float
) -> Track:
    """Some landmarks ahead of where the lead heel stood at address, along the target line.

    The body is nearer the camera than the heel or further off, as the pose model has it; seen
    aslant that moves it along the target line, and half of it is believed, give or take half.
    """
    scale, bearing = scale_of(evidence), bearing_of(evidence)
    heel = evidence.stance.lead.heel
    standing = len(address_poses(evidence))
    heel_m = float(np.median(along_m(evidence, scale, heel)[:standing]))
    nearer_m = _nearer_m(evidence, scale, heel, landmarks)
    seen_m = along_m(evidence, scale, *landmarks) - heel_m
    values = seen_m + np.sin(np.radians(bearing.deg)) * nearer_m / 2
    shared = [aslant_m(evidence, nearer_m / 2), _HEEL_SIGMA_M, _lean_m(evidence, scale, landmarks)]
    course = frames(evidence, values, 0.07, 2, BODY_PACE)
    return Track(
        course,
        each_sigma=float(np.hypot(sigma_m, aslant_m(evidence, _TURN_DEPTH_M))),
        shared_sigma=float(np.linalg.norm(shared)),
        sigma_share=scale.sigma_share,
        turned_sigma=turned_m,
    )


def _nearer_m(
    evidence: SwingEvidence, scale: Scale, heel: Landmark, landmarks: tuple[Landmark, ...]
) -> float:
    away = [evidence.track_world_m(landmark)[:, 2] for landmark in landmarks]
    depth = evidence.track_world_m(heel)[:, 2] - np.mean(away, axis=0)
    return float(np.median(depth)) * scale.metres_per_model_metre


def _lean_m(evidence: SwingEvidence, scale: Scale, landmarks: tuple[Landmark, ...]) -> float:
    """What the level's spread moves landmarks so far above the heel."""
    heel = evidence.stance.lead.heel
    above = height_m(evidence, scale, *landmarks) - height_m(evidence, scale, heel)
    return float(np.radians(evidence.level.sigma_deg) * np.median(above))
