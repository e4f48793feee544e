"""What a still golfer shows of a checkpoint: angles from level, and butt against buckle.

Seen face-on, in the picture as it is: a camera that leans by a degree turns an angle by as much.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.still_shaft import ShaftSight
from baycue.measures.measurement import Unit
from baycue.plan.practice_block import PracticeDrill
from baycue.pose.pose import Pose
from baycue.pose.sides import LEFT, RIGHT, Stance
from baycue.practice.hold import HoldSample, LiveMeasure, Reading, Window
from baycue.swing.arms import lead_arm_deg
from baycue.swing.hands import grip_px, middle_px
from baycue.swing.swing import CheckpointName

FloatArray = NDArray[np.float64]

SHAFT = LiveMeasure("shaft from level", Unit.DEGREE, "club head up", "club head down")
ARM = LiveMeasure("lead arm from level", Unit.DEGREE, "lead arm up", "lead arm down")
BUTT = LiveMeasure("butt past buckle", Unit.METRE, "hands toward the target", "hands back")

_BUTT_ABOVE_GRIP_M = 0.10
"""From the middle of both hands to the butt; common practice, no source."""
_LEAN_SIGMA_DEG, _ARM_SIGMA_DEG = 1.5, 4.0
_BUTT_SIGMA_M, _BUTT_UNSEEN_SIGMA_M = 0.03, 0.05
_NEARER_SHARE = 0.10
"""Hands are nearer the camera than the belt by about so much of the distance, so that what is
seen aside of the picture's middle is seen that much further aside."""


@dataclass(frozen=True, slots=True)
class HeldShape:
    """What a checkpoint looks like.

    ``level_deg``: the angle, counted as the shaft's, at which shaft or arm is parallel.
    ``wrist_deg``: shaft less lead arm for who cannot be seen to hold a club, and its one-sigma;
    assumed, common practice, no source.
    """

    measure: LiveMeasure
    level_deg: float
    wrist_deg: float = 0.0
    wrist_sigma_deg: float = 0.0


SHAPES = {
    CheckpointName.P2: HeldShape(SHAFT, -90.0, -40.0, 20.0),
    CheckpointName.P3: HeldShape(ARM, -90.0),
    CheckpointName.P5: HeldShape(ARM, -90.0),
    CheckpointName.P6: HeldShape(SHAFT, -90.0, -70.0, 20.0),
    CheckpointName.P8: HeldShape(SHAFT, 90.0, 50.0, 25.0),
}


@dataclass(frozen=True, slots=True)
class Sight:
    """One moment of a golfer: the pose, the shaft if it is seen, and the picture's scale."""

    pose: Pose
    shaft: ShaftSight | None
    stance: Stance
    px_per_m: float
    width_px: int


def windows_of(drill: PracticeDrill) -> tuple[Window, ...]:
    """What a hold has to meet."""
    assert drill.at is not None, "plans are checked: a hold has its checkpoint"
    half = drill.angle_within.value
    angle = Window(SHAPES[drill.at].measure, -half, half)
    if drill.butt_within is None:
        return (angle,)
    return angle, Window(BUTT, -drill.butt_within.value, drill.butt_within.value)


def hold_sample(at: CheckpointName, sight: Sight) -> HoldSample:
    """Every measure of a checkpoint, the lead arm standing in for a shaft that is not seen."""
    shape = SHAPES[at]
    arm_deg = float(lead_arm_deg((sight.pose,), sight.stance)[0])
    if shape.measure is ARM:
        angle_deg, sigma_deg = arm_deg, _ARM_SIGMA_DEG
    elif sight.shaft is not None:
        angle_deg, sigma_deg = sight.shaft.angle_deg, sight.shaft.sigma_deg
    else:
        angle_deg, sigma_deg = arm_deg + shape.wrist_deg, shape.wrist_sigma_deg
    above_deg = _turned(angle_deg - shape.level_deg) * (1 if shape.level_deg > 0 else -1)
    angle = Reading(shape.measure, above_deg, float(np.hypot(sigma_deg, _LEAN_SIGMA_DEG)))
    butt_deg = shape.level_deg if sight.shaft is None else sight.shaft.angle_deg
    butt = _butt_past_buckle(sight, butt_deg)
    return HoldSample(sight.pose.stamp_ns, (angle, butt), sight.shaft is not None)


def needs_the_club(windows: tuple[Window, ...]) -> bool:
    """Whether any of the windows cannot be judged without it."""
    return any(window.measure is not ARM for window in windows)


def _butt_past_buckle(sight: Sight, shaft_deg: float) -> Reading:
    """Butt ahead of the middle of the hips, positive to the target, metres."""
    toward, pose = sight.stance.toward_target, sight.pose
    hands_x = float(grip_px(pose)[0])
    hands_x -= float(np.sin(np.radians(shaft_deg))) * toward * _BUTT_ABOVE_GRIP_M * sight.px_per_m
    aside_m = abs(hands_x - sight.width_px / 2) / sight.px_per_m
    past_px = (hands_x - float(middle_px(pose, LEFT.hip, RIGHT.hip)[0])) * toward
    own_m = _BUTT_SIGMA_M if sight.shaft is not None else _BUTT_UNSEEN_SIGMA_M
    return Reading(BUTT, past_px / sight.px_per_m, float(np.hypot(own_m, _NEARER_SHARE * aside_m)))


def _turned(angle_deg: float) -> float:
    """Within half a turn either way."""
    return (angle_deg + 180.0) % 360.0 - 180.0
