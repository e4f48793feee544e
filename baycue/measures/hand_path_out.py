"""How far the hands go out from the golfer or in, seen down the line.

From behind, +z lies across the picture, on the side of the ball.  Two things feign a hand path
there: the hands come toward the camera as they go back, so that all looks wider; and a camera that
is not quite behind the hands sees a part of their way back as a way across.  How far back they are
is told by how far from the shoulders they seem: what is missing of the arms' length at address
points along the line of sight.
"""

import numpy as np

from baycue.measures.behind import BEHIND, bearing_from_behind
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.marks import Dot, Line, Mark, Role, Sight
from baycue.measures.measure import Measure, Way, Zero
from baycue.measures.measurement import Unit
from baycue.measures.scale import Scale, address_poses, scale_of
from baycue.measures.sketch import at_address_px, middle_px
from baycue.measures.track import Track, frames
from baycue.plan.stance import View
from baycue.pose.sides import LEFT, RIGHT

_SHOULDERS, _WRISTS = (LEFT.shoulder, RIGHT.shoulder), (LEFT.wrist, RIGHT.wrist)
_HALF_WIDTH_S, _DEGREE = 0.05, 2
_FAR_BACK_M = 0.45
"""How far back the hands are from P2 to P5; a bearing's error counts times that."""


def _track(evidence: SwingEvidence) -> Track:
    scale, bearing = scale_of(evidence), bearing_from_behind(evidence)
    aslant_m = np.sin(np.radians(bearing.deg)) * back_m(evidence, scale)
    values = BEHIND.gain * across_m(evidence, scale) + BEHIND.along_share * aslant_m
    unsure_m = BEHIND.along_share * np.radians(bearing.sigma_deg) * _FAR_BACK_M
    return Track(
        frames(evidence, values, _HALF_WIDTH_S, _DEGREE),
        # Both are a change's, from one moment to another.
        each_sigma=float(np.hypot(BEHIND.hands_sigma_m, unsure_m) / np.sqrt(2)),
        sigma_share=scale.sigma_share,
    )


def across_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """The middle of both wrists toward the ball since address, (N,), as far off as it is there."""
    seen_px = evidence.track_px(*_WRISTS)[:, 0] * evidence.stance.toward_target
    standing = len(address_poses(evidence))
    seen_m = (seen_px - np.median(seen_px[:standing])) / scale.px_per_m
    away_m = evidence.camera.focal_px / scale.px_per_m
    return np.asarray(seen_m * (1 - back_m(evidence, scale) / away_m))


def back_m(evidence: SwingEvidence, scale: Scale) -> FloatArray:
    """How much nearer the camera the hands are than at address, (N,), metres, 0 or more."""
    arms_px = evidence.track_px(*_WRISTS) - evidence.track_px(*_SHOULDERS)
    seen_m = np.linalg.norm(arms_px, axis=1) / scale.px_per_m
    whole_m = float(np.median(seen_m[: len(address_poses(evidence))]))
    return np.asarray(np.sqrt(np.maximum(whole_m**2 - seen_m**2, 0.0)))


def _draw(sight: Sight) -> tuple[Mark, ...]:
    """A plumb line up from the hands at address, and from it a bar to where they are."""
    hands, before = middle_px(sight, *_WRISTS), at_address_px(sight, *_WRISTS)
    top = min(float(hands[1]), float(before[1])) - sight.body_px / 10
    foot = np.array([before[0], hands[1]])
    return (
        Line(np.array([before, [before[0], top]]), Role.FROM),
        Dot(before, Role.FROM),
        Line(np.array([foot, hands]), Role.MEASURED),
        Dot(hands, Role.MEASURED),
    )


MEASURE = Measure(
    name="hand path out",
    definition="How far the middle of both wrists has gone out from the golfer, toward the ball's "
    "side, since address or another checkpoint.",
    positive="out, negative is in",
    unit=Unit.METRE,
    views=frozenset({View.DOWN_THE_LINE}),
    track=_track,
    zero=Zero.ADDRESS,
    draw=_draw,
    way=Way.ALONG,
)
