"""What the set-up check looks at: the golfer at address over the last few seconds."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from statistics import median

import numpy as np
from numpy.typing import NDArray

from baycue.club.background import GreyPicture
from baycue.club.scenes import SHRINK
from baycue.glimpse import Glimpse
from baycue.plan.plan import Plan
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance, stance_in_picture
from baycue.swing.hands import hand_sample

FloatArray = NDArray[np.float64]

_HANDS_TOGETHER, _HANDS_LOW = 0.30, 0.25
"""Body units; as the segmentation of swings has them."""


@dataclass(frozen=True, slots=True)
class Looked:
    """The glimpses of a few seconds, oldest first, and the plan; at least one glimpse."""

    seen: tuple[Glimpse, ...]
    plan: Plan

    @property
    def size_px(self) -> tuple[int, int]:
        """The picture's width and height."""
        return self.seen[-1].width_px, self.seen[-1].height_px

    @property
    def poses(self) -> tuple[Pose, ...]:
        """Every pose of the golfer."""
        return tuple(g.pose for g in self.seen if g.pose)

    @property
    def at_address(self) -> tuple[Pose, ...]:
        """The poses with both hands together and low, as on a club at the ball."""
        return tuple(p for p in self.poses if _addresses(p))

    @property
    def stance(self) -> Stance:
        """How plan and mirroring say that the golfer appears."""
        return stance_in_picture(self.plan.handedness, self.plan.camera.mirrored)

    @property
    def greys(self) -> tuple[GreyPicture, ...]:
        """The small grey pictures."""
        return tuple(g.grey for g in self.seen)

    def golfer_box(self, room_share: float = 0.0) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the golfer in the small grey pictures, px."""
        places = typical(self.poses) / SHRINK
        low, high = places.min(axis=0), places.max(axis=0)
        low, high = low - room_share * (high - low), high + room_share * (high - low)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])


def typical(poses: Sequence[Pose]) -> FloatArray:
    """(33, 2) px: each landmark's median place."""
    return np.asarray(np.median([p.pixels for p in poses], axis=0), dtype=np.float64)


def frame_gaps_ns(seen: Sequence[Glimpse]) -> list[float]:
    """Time between one frame and the next, also where the frames between were not looked at."""
    pairs = [(a, b, b.frame_index - a.frame_index) for a, b in pairwise(seen)]
    return [(b.stamp_ns - a.stamp_ns) / steps for a, b, steps in pairs if steps > 0]


def frames_per_second(seen: Sequence[Glimpse]) -> float | None:
    """The rate as measured from stamps, by the median gap; None for fewer than three frames."""
    gaps = frame_gaps_ns(seen)
    return 1e9 / median(gaps) if len(gaps) > 1 else None


def _addresses(pose: Pose) -> bool:
    hands = hand_sample(pose)
    return hands.apart < _HANDS_TOGETHER and hands.below_shoulders > _HANDS_LOW
