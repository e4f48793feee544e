"""Of several people the golfer: who is nearer the camera, asked until somebody has stood still."""

from dataclasses import dataclass

import numpy as np

from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.pose.presence import VANISHES_AFTER_NS, body_height_px, leg_px, mid, mid_hip

_STANDS_WITHIN, _STANDS_NS = 0.10, 500_000_000
"""Body heights that mid-hip may move; who walks at 0.9 m a second goes three times as far."""
_BESIDE = 0.3
"""Body heights that two people must be apart sideways, or they may be one, seen twice."""
_ANOTHER_LOOK = 0.3
"""Body heights that somebody must have gone on since the last look for somebody nearer."""


def nearer_beside(one: Pose, other: Pose) -> bool:
    """Whether one is somebody else than the other, beside them, and nearer the camera."""
    apart_px = abs(float(mid_hip(one)[0] - mid_hip(other)[0]))
    beside = apart_px > _BESIDE * max(body_height_px(one), body_height_px(other))
    return beside and nearer(one, other)


def nearer(one: Pose, other: Pose) -> bool:
    """Whether one of two people on a floor is nearer the camera, by feet and legs in the picture.

    Feet lower, counted in lengths of the leg, or legs longer.  The camera may lean and the one
    behind be taller, so both are asked together: in 875 drawn bays with somebody behind
    (population seeds 20 to 39) feet alone would have been wrong twice, legs alone twice, both
    never.
    """
    legs_px = leg_px(one), leg_px(other)
    lower_px = _feet_px(one) - _feet_px(other)
    return bool(np.log(legs_px[0] / legs_px[1]) + lower_px / max(legs_px) > 0)


def is_same(one: Pose, other: Pose) -> bool:
    """Whether two poses in one picture are of the same body."""
    return _gone(mid_hip(one), other) <= _STANDS_WITHIN


def _feet_px(pose: Pose) -> float:
    return float(mid(pose, Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)[1])


@dataclass(frozen=True, slots=True, eq=False)
class Choosing:
    """Whether it is still open who the golfer is; a pure fold over who is followed.

    ``stood``: whether somebody has been followed who stood still, and so was settled on;
    ``here_px``, ``here_since_ns``: where, and since when, they have been; ``looked_px``: where
    they were at the last look for somebody nearer; ``seen_ns``: when they were last seen.
    """

    stood: bool = False
    here_px: FloatArray | None = None
    here_since_ns: int = 0
    looked_px: FloatArray | None = None
    seen_ns: int = 0

    def due(self, pose: Pose) -> bool:
        """Whether to look for somebody nearer than this plausible pose, in order of time."""
        far_on = _gone(self.looked_px, pose) >= _ANOTHER_LOOK
        return self._lost(pose) or (far_on and not self.stood)

    def after(self, pose: Pose) -> "Choosing":
        """One plausible pose on, of whom was found nearest if a look was due."""
        before = Choosing() if self._lost(pose) else self
        place_px, stamp_ns = mid_hip(pose), pose.stamp_ns
        here_px, since_ns = before.here_px, before.here_since_ns
        if here_px is None or _gone(here_px, pose) > _STANDS_WITHIN:
            here_px, since_ns = place_px, stamp_ns
        stood = before.stood or stamp_ns - since_ns >= _STANDS_NS
        looked_px = place_px if self.due(pose) else before.looked_px
        return Choosing(stood, here_px, since_ns, looked_px, stamp_ns)

    def _lost(self, pose: Pose) -> bool:
        return self.looked_px is None or pose.stamp_ns - self.seen_ns > VANISHES_AFTER_NS


def _gone(before_px: FloatArray | None, pose: Pose) -> float:
    """Body heights of mid-hip from a place; infinitely many from nowhere."""
    if before_px is None:
        return np.inf
    return float(np.linalg.norm(mid_hip(pose) - before_px)) / body_height_px(pose)
