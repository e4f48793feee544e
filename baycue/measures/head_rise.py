"""How far the head rises."""

import numpy as np

from baycue.measures.calibration import HEAD
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.marks import Dot, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way, Zero
from baycue.measures.measurement import Unit
from baycue.measures.scale import Scale, address_poses, scale_of
from baycue.measures.steady import Pace
from baycue.measures.track import Company, Frames, Known, Sum, Track
from baycue.plan.stance import View
from baycue.pose.pose import Landmark, Pose

_HALF_WIDTH_S, _DEGREE = 0.05, 1
_TURNED_M = 0.010
"""Set on the bench's development swings (seed 2)."""
_PACE = Pace(fastest=1.0, slack=0.03)
_EARS = (Landmark.LEFT_EAR, Landmark.RIGHT_EAR)


def _track(evidence: SwingEvidence) -> Track:
    scale = scale_of(evidence)
    ears_m = ear_heights_m(evidence, scale)
    # Who walks by does so sideways: a head on theirs is told by that sooner than by its height.
    places_m = evidence.track_px(*_EARS) / scale.px_per_m
    kept = _PACE.steady(evidence.times_s, places_m)
    company = Company(places_m) if evidence.in_company else None
    seen = Frames(evidence.times_s, ears_m, kept, _HALF_WIDTH_S, _DEGREE, company)
    return Track(
        Sum(((1.0, seen), (-1.0, _drawn_too_high_m(evidence)))),
        # The calibration's sigma is a rise's, from one moment to another.
        each_sigma=HEAD.sigma_m / float(np.sqrt(2)),
        sigma_share=scale.sigma_share,
        turned_sigma=_TURNED_M,
        gain=HEAD.gain,
    )


def ear_heights_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """The ears above some fixed level per pose, (N,), metres, uncalibrated."""
    return np.asarray(-evidence.track_px(*_EARS)[:, 1] / scale.px_per_m)


def _drawn_too_high_m(evidence: SwingEvidence) -> Known:
    """By how much the model sets the ears too high, metres, between checkpoints by straight lines.

    Smoothing carries some of it over from one to the next, which the calibration has in it.
    """
    known = [c for c in evidence.swing.checkpoints if c.name.value in HEAD.too_high_share]
    if evidence.view is not View.FACE_ON or not known:
        return Known(np.zeros(1), np.zeros(1))
    sine = float(np.sin(np.radians(_above_camera_deg(evidence))))
    names = [c.name.value for c in known]
    shares = np.array([HEAD.too_high_share[n] + sine * HEAD.nearer_share[n] for n in names])
    times_s = np.array([c.time_ns * 1e-9 for c in known])
    return Known(times_s, evidence.stature_m * shares)


def _above_camera_deg(evidence: SwingEvidence) -> float:
    """How far the camera, taken to be level, looks up to the ears at address."""
    ears_px = np.median([_ears_px(pose) for pose in address_poses(evidence)], axis=0)
    slope = (evidence.camera.height_px / 2 - ears_px[1]) / evidence.camera.focal_px
    return float(np.degrees(np.arctan(slope)))


def _draw(sight: Sight) -> tuple[Mark, ...]:
    """A level line where the ears were at address, and a bar from it to where they are."""
    ears, before = _ears_px(sight.pose), np.median([_ears_px(p) for p in sight.address], axis=0)
    half_px = sight.body_px / 10
    level = np.array([[ears[0] - half_px, before[1]], [ears[0] + half_px, before[1]]])
    return (
        Line(level, Role.FROM),
        Line(np.array([[ears[0], before[1]], ears]), Role.MEASURED),
        Dot(ears, Role.MEASURED),
    )


def _ears_px(pose: Pose) -> FloatArray:
    return np.asarray(pose.pixels[list(_EARS)].mean(axis=0))


MEASURE = Measure(
    name="head rise",
    definition="How far the head has risen since address or another checkpoint.",
    positive="the head went up, negative is a drop",
    unit=Unit.METRE,
    views=frozenset({View.FACE_ON, View.DOWN_THE_LINE}),
    track=_track,
    zero=Zero.ADDRESS,
    draw=_draw,
    way=Way.UP,
)
