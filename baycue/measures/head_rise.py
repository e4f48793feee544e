"""How far the head rises."""

import numpy as np

from baycue.measures.calibration import HEAD
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.marks import Dot, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way, Zero
from baycue.measures.measurement import Unit
from baycue.measures.scale import Scale, scale_of
from baycue.measures.steady import Pace
from baycue.measures.track import Frames, Track
from baycue.plan.stance import View
from baycue.pose.pose import Landmark, Pose

_HALF_WIDTH_S, _DEGREE = 0.05, 1
_TURNED_M = 0.010
"""Set on the bench's development swings (seed 2)."""
_PACE = Pace(fastest=1.0, slack=0.03)
_EARS = (Landmark.LEFT_EAR, Landmark.RIGHT_EAR)


def _track(evidence: SwingEvidence) -> Track:
    scale = scale_of(evidence)
    ears_m = ear_heights_m(evidence, scale) - _drawn_too_high_m(evidence)
    # Who walks by does so sideways: a head on theirs is told by that sooner than by its height.
    kept = _PACE.steady(evidence.times_s, evidence.track_px(*_EARS) / scale.px_per_m)
    return Track(
        Frames(evidence.times_s, ears_m, kept, _HALF_WIDTH_S, _DEGREE),
        # The calibration's sigma is a rise's, from one moment to another.
        each_sigma=HEAD.sigma_m / float(np.sqrt(2)),
        sigma_share=scale.sigma_share,
        turned_sigma=_TURNED_M,
        gain=HEAD.gain,
    )


def ear_heights_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """The ears above some fixed level per pose, (N,), metres, uncalibrated."""
    return np.asarray(-evidence.track_px(*_EARS)[:, 1] / scale.px_per_m)


def _drawn_too_high_m(evidence: SwingEvidence) -> FloatArray:
    """By how much the model sets the ears too high, (N,), between checkpoints by straight lines."""
    known = [c for c in evidence.swing.checkpoints if c.name.value in HEAD.too_high_share]
    if evidence.view is not View.FACE_ON or not known:
        return np.zeros(len(evidence.poses))
    times_s = [c.time_ns * 1e-9 for c in known]
    shares = [HEAD.too_high_share[c.name.value] for c in known]
    return evidence.stature_m * np.interp(evidence.times_s, times_s, shares)


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
