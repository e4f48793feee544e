"""Is there really a golfer?  Gates on what the pose model believes it sees.

The model reports bodies in furniture, bags and posters too, with high visibility, so a
pose counts as a person only if its limbs have human proportions, it is upright, and it
stays put from frame to frame.
"""

from dataclasses import dataclass

import numpy as np

from baycue.pose.pose import FloatArray, Landmark, Pose

SMALLEST_HEIGHT_SHARE = 0.17
"""Nose to ankles, of the picture's height; a smaller body is no golfer of this bay.  One of 1.50 m
at the ball, 5 m from a camera that sees 90 degrees across, takes 0.19 of it."""

TORSO_TO_LEG = (0.25, 1.1)
"""Mid-shoulder to mid-hip over hip to ankle: 0.59 standing (Drillis & Contini 1966), less
bent over towards the camera, more with the knees bent."""

THIGH_TO_SHANK = (0.5, 2.0)
"""1.00 standing (Drillis & Contini 1966); a bent knee foreshortens either."""

LEFT_TO_RIGHT_LEG = (0.6, 1.67)
ARM_TO_LEG_MOST = 1.1
"""Shoulder to wrist over hip to ankle: 0.68 straight (Drillis & Contini 1966)."""

CORE_VISIBILITY_LEAST = 0.5
_CORE = (
    Landmark.LEFT_SHOULDER,
    Landmark.RIGHT_SHOULDER,
    Landmark.LEFT_HIP,
    Landmark.RIGHT_HIP,
)

APPEARS_AFTER_NS = 250_000_000
"""A steady body this long is a golfer."""

VANISHES_AFTER_NS = 500_000_000
"""A golfer not seen this long is gone."""

_SPEED_MOST_PER_S = 3.0
"""Body heights a second that mid-hip may move: a run is about 2."""

_JITTER = 0.05
"""Body heights that mid-hip may jump, and share that the body may grow, between frames."""


def mid(pose: Pose, left: Landmark, right: Landmark) -> FloatArray:
    """The (2,) point midway between two landmarks, px."""
    return np.asarray((pose.pixels[left] + pose.pixels[right]) / 2)


def mid_hip(pose: Pose) -> FloatArray:
    """The (2,) middle of the hips, px."""
    return mid(pose, Landmark.LEFT_HIP, Landmark.RIGHT_HIP)


def body_height_px(pose: Pose) -> float:
    """Nose to mid-ankle, straight down the picture, px; negative if upside down."""
    ankles = mid(pose, Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)
    return float(ankles[1] - pose.pixels[Landmark.NOSE][1])


def leg_px(pose: Pose) -> float:
    """Hip to knee to ankle, px, the mean of both sides."""
    return (_limbs(pose, *_LEFT).leg + _limbs(pose, *_RIGHT).leg) / 2


def plausible(pose: Pose, picture_size: tuple[int, int]) -> bool:
    """Whether the pose could be a standing person in a picture of (width, height) px."""
    return (
        bool(np.isfinite(pose.pixels).all())
        and body_height_px(pose) >= SMALLEST_HEIGHT_SHARE * picture_size[1]
        and _upright(pose)
        and _proportioned(pose)
        and float(pose.visibility[list(_CORE)].mean()) >= CORE_VISIBILITY_LEAST
    )


def _upright(pose: Pose) -> bool:
    """Shoulders above hips above knees above ankles, and the nose above the hips."""
    heights = [
        mid(pose, Landmark.LEFT_SHOULDER, Landmark.RIGHT_SHOULDER)[1],
        mid_hip(pose)[1],
        mid(pose, Landmark.LEFT_KNEE, Landmark.RIGHT_KNEE)[1],
        mid(pose, Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)[1],
    ]
    return heights == sorted(heights) and bool(pose.pixels[Landmark.NOSE][1] < heights[1])


def _proportioned(pose: Pose) -> bool:
    left, right = _limbs(pose, *_LEFT), _limbs(pose, *_RIGHT)
    leg = leg_px(pose)
    shoulders = mid(pose, Landmark.LEFT_SHOULDER, Landmark.RIGHT_SHOULDER)
    torso = float(np.linalg.norm(shoulders - mid_hip(pose)))
    return (
        leg > 0
        and _within(torso / leg, TORSO_TO_LEG)
        and _within(left.leg / max(right.leg, 1e-9), LEFT_TO_RIGHT_LEG)
        and all(_within(s.thigh / max(s.shank, 1e-9), THIGH_TO_SHANK) for s in (left, right))
        and all(s.arm <= ARM_TO_LEG_MOST * leg for s in (left, right))
    )


@dataclass(frozen=True, slots=True)
class _Limbs:
    """Lengths in the picture of one side's limbs, px."""

    arm: float
    thigh: float
    shank: float

    @property
    def leg(self) -> float:
        return self.thigh + self.shank


_LEFT = (
    (Landmark.LEFT_SHOULDER, Landmark.LEFT_ELBOW, Landmark.LEFT_WRIST),
    (Landmark.LEFT_HIP, Landmark.LEFT_KNEE, Landmark.LEFT_ANKLE),
)
_RIGHT = (
    (Landmark.RIGHT_SHOULDER, Landmark.RIGHT_ELBOW, Landmark.RIGHT_WRIST),
    (Landmark.RIGHT_HIP, Landmark.RIGHT_KNEE, Landmark.RIGHT_ANKLE),
)


def _limbs(pose: Pose, arm: tuple[Landmark, ...], leg: tuple[Landmark, ...]) -> _Limbs:
    upper, fore = np.linalg.norm(np.diff(pose.pixels[list(arm)], axis=0), axis=1)
    thigh, shank = np.linalg.norm(np.diff(pose.pixels[list(leg)], axis=0), axis=1)
    return _Limbs(float(upper + fore), float(thigh), float(shank))


def _within(value: float, bounds: tuple[float, float]) -> bool:
    return bounds[0] <= value <= bounds[1]


@dataclass(frozen=True, slots=True)
class Presence:
    """Whether a golfer is there, as of the last frame told; start with ``Presence()``.

    ``last``: the newest plausible pose.  ``steady_since_ns``: since when plausible poses
    have followed each other without a jump.
    """

    golfer_present: bool = False
    last: Pose | None = None
    steady_since_ns: int | None = None

    def after(self, stamp_ns: int, pose: Pose | None, picture_size: tuple[int, int]) -> "Presence":
        """The presence after one more frame, with its pose or None, in order of time."""
        if pose is None or not plausible(pose, picture_size):
            return self._unseen(stamp_ns)
        if self.last is None or self.steady_since_ns is None or not _follows(pose, self.last):
            return Presence(self.golfer_present, pose, stamp_ns)
        appeared = stamp_ns - self.steady_since_ns >= APPEARS_AFTER_NS
        return Presence(self.golfer_present or appeared, pose, self.steady_since_ns)

    def _unseen(self, stamp_ns: int) -> "Presence":
        if self.last is None or stamp_ns - self.last.stamp_ns > VANISHES_AFTER_NS:
            return Presence()
        return self


def _follows(pose: Pose, before: Pose) -> bool:
    """Whether both can be the same body: no jump of the hips, no sudden growth."""
    height_px = body_height_px(before)
    elapsed_s = (pose.stamp_ns - before.stamp_ns) / 1e9
    moved = float(np.linalg.norm(mid_hip(pose) - mid_hip(before))) / height_px
    grown = abs(body_height_px(pose) / height_px - 1)
    most = _JITTER + _SPEED_MOST_PER_S * elapsed_s
    return moved <= most and grown <= most
