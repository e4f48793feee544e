"""Shaft readings, strikes and true checkpoints of the canned swing."""

from functools import lru_cache

import numpy as np

from baycue.club.reading import Evidence, ShaftReading
from baycue.pose.pose import Landmark
from baycue.pose.sides import Stance
from baycue.swing.arms import direction_deg
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import grip_px
from tests.canned_swing import BACKSWING_S, CannedSwing, canned_swing, crossing_of
from tests.stick_golfer import ARM_SHARE, FloatArray, StickGolfer, poses_of

TOP_NS = 10_000_000_000
GRIP_TO_HEAD_M = 0.86
RIGHT_HANDER, LEFT_HANDER = Stance(left_leads=True), Stance(left_leads=False)


def ns(time_s: float) -> int:
    """A time counted from the top as a stamp."""
    return TOP_NS + round(time_s * 1e9)


def seconds(stamp_ns: int) -> float:
    """A stamp as a time counted from the top."""
    return (stamp_ns - TOP_NS) * 1e-9


def shaft_readings(
    times_s: FloatArray, swing: CannedSwing, sigma_deg: float, rng: np.random.Generator
) -> tuple[ShaftReading, ...]:
    """A reading for every time, wrong by as much as it says."""
    angles = swing.shaft_deg(times_s) + rng.normal(0, sigma_deg, len(times_s))
    return tuple(
        ShaftReading(k, ns(float(t)), float(a), sigma_deg, 0.0, Evidence.PICTURE)
        for k, (t, a) in enumerate(zip(times_s, angles, strict=True))
    )


def rough_strike(fps: float) -> StrikeSeen:
    """What the segmentation would tell: times to the frame."""
    frame = 1 / fps
    times = (-1.2, -BACKSWING_S + 0.1, frame / 2, true_times_s()["impact"] - frame / 2)
    return StrikeSeen(*(ns(t) for t in times))


@lru_cache(maxsize=1)
def true_times_s() -> dict[str, float]:
    """When the canned swing passes its checkpoints, counted from the top."""
    swing = canned_swing()
    return {
        "takeaway": -BACKSWING_S,
        "P2": swing.when_shaft(-90, -BACKSWING_S, 0.0),
        "P3": swing.when_arm(-90, -BACKSWING_S, 0.0),
        "top": 0.0,
        "P5": swing.when_arm(-90, 0.0, 0.3),
        "P6": swing.when_shaft(-90, 0.0, 0.35),
        "impact": crossing_of(_shaft_past_ball_deg, 0.25, 0.35),
        "P8": swing.when_shaft(90, 0.25, 0.45),
    }


def _shaft_past_ball_deg(time_s: float) -> float:
    """How far the shaft has turned past where the head stood at address."""
    swing = canned_swing()
    (now,) = poses_of(np.array([time_s]), swing)
    toward_ball = direction_deg(grip_px(now), ball_px(), RIGHT_HANDER)
    return float(swing.shaft_deg(time_s) - toward_ball)


@lru_cache(maxsize=1)
def ball_px() -> FloatArray:
    """Where the club head stands at address, in the default camera's picture."""
    (pose,) = poses_of(np.array([-2.0]), canned_swing())
    arm_px = pose.pixel(Landmark.LEFT_WRIST) - pose.pixel(Landmark.LEFT_SHOULDER)
    px_per_m = np.linalg.norm(arm_px) / (ARM_SHARE * StickGolfer().stature_m)
    angle = np.radians(float(canned_swing().shaft_deg(-2.0)))
    along = np.array([np.sin(angle), np.cos(angle)])
    return np.asarray(grip_px(pose) + GRIP_TO_HEAD_M * px_per_m * along)
