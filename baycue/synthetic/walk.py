"""Someone walking through the bay along the target line."""

from dataclasses import dataclass
from math import pi, sin
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arms import put_arm
from baycue.synthetic.curves import minimum_jerk
from baycue.synthetic.motion import Motion
from baycue.synthetic.posture import Foot, Hand, Trunk, Turn
from baycue.synthetic.rig import Rig
from baycue.synthetic.scene import Body, Moment
from baycue.synthetic.skeleton import Skeleton, put_leg, put_trunk
from baycue.synthetic.swing_motion import SwingMotion

FloatArray = NDArray[np.float64]

SWING_SHARE, FOOT_LIFT_M, TOE_OFF_DEG = 0.42, 0.06, 38.0


@dataclass(frozen=True, slots=True, eq=False)
class Walk:
    """A person walking at ``z_m`` from ``from_x_m``; negative speed walks to -x.

    ``step_s``: time of one step; two make a stride.
    """

    person: Body
    z_m: float
    from_x_m: float
    speed_m_s: float = 1.15
    step_s: float = 0.55

    def bones_at(self, time_s: float) -> FloatArray:
        """(B, 4, 4) the walker's bones."""
        rig = Rig(self.person)
        heading_deg = 90.0 if self.speed_m_s > 0 else -90.0
        stride = pi * time_s / self.step_s
        sway = sin(stride)
        hips_m = np.array(
            [self.from_x_m + self.speed_m_s * time_s, rig.hip_centre_m[1] - 0.055, self.z_m]
        )
        hips_m[1] += 0.012 * np.cos(2 * stride)
        trunk = Trunk(
            hips_m,
            Turn(heading_deg - 5 * sway),
            Turn(heading_deg + 7 * sway),
            Turn(heading_deg),
        )
        skeleton = put_trunk(rig, trunk)
        for side, phase in (("l", 0.0), ("r", 0.5)):
            put_leg(skeleton, side, self._foot(rig, side, time_s, phase, heading_deg))
            self._swing_arm(skeleton, side, -sway if side == "l" else sway)
        return skeleton.transforms()

    def _foot(self, rig: Rig, side: str, time_s: float, phase: float, heading_deg: float) -> Foot:
        """Planted, then carried forward by a stride within ``SWING_SHARE`` of it."""
        stride_s, forward = 2 * self.step_s, np.sign(self.speed_m_s)
        count = time_s / stride_s + phase
        whole, part = np.floor(count), count % 1.0
        carried = minimum_jerk((part - (1 - SWING_SHARE)) / SWING_SHARE)
        stride_m = self.speed_m_s * stride_s
        middle = self.from_x_m - phase * stride_m + stride_m * (1 - SWING_SHARE) / 2
        lifted = sin(pi * carried) if part > 1 - SWING_SHARE else 0.0
        push = max(0.0, (part - 0.35) / (1 - SWING_SHARE - 0.35)) if lifted == 0.0 else 1 - carried
        across = float(rig.joint(f"foot_{side}")[0]) * 0.45 * -forward
        toe_m = np.array(
            [
                middle + stride_m * (whole + carried) + 0.14 * forward,
                rig.joint(f"ball_{side}")[1] + FOOT_LIFT_M * lifted,
                self.z_m + across,
            ]
        )
        return Foot(toe_m, heading_deg, TOE_OFF_DEG * min(push, 1.0), heading_deg)

    def _swing_arm(self, skeleton: Skeleton, side: str, share: float) -> None:
        shoulder_m = skeleton.head_of(f"upperarm_{side}")
        forward = np.sign(self.speed_m_s)
        out = 0.10 * (-forward if side == "l" else forward)
        way = np.array([forward * (0.06 + 0.30 * share), -0.95, out])
        way *= 0.93 * skeleton.rig.arms[side].length_m / np.linalg.norm(way)
        put_arm(skeleton, side, Hand(shoulder_m + way, None, np.array([-forward, -0.3, out]), 0.5))


class Passer(Protocol):
    """Somebody else in the bay."""

    def bones_at(self, time_s: float) -> FloatArray:
        """(B, 4, 4) the other person's bones."""
        ...


@dataclass(frozen=True, slots=True, eq=False)
class Onlooker:
    """Somebody who does what a motion says, without a club, at ``place_m`` (3,), over and over."""

    motion: Motion
    place_m: FloatArray

    def bones_at(self, time_s: float) -> FloatArray:
        """(B, 4, 4) the onlooker's bones."""
        bones = self.motion.moment_at(time_s % self.motion.duration_s).bones
        assert bones is not None, "an onlooker is somebody"
        moved = bones.copy()
        moved[:, :3, 3] += self.place_m
        return moved


@dataclass(frozen=True, slots=True, eq=False)
class WithWalker:
    """A motion with someone else in the bay, whose own time begins at ``start_s``."""

    motion: Motion
    walk: Passer
    start_s: float = 0.0

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.motion.body

    @property
    def duration_s(self) -> float:
        """As long as the motion."""
        return self.motion.duration_s

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """The motion's swings."""
        return self.motion.swings

    def moment_at(self, time_s: float) -> Moment:
        """The motion's moment with the walker in it."""
        at = self.motion.moment_at(time_s)
        walker = self.walk.bones_at(max(time_s - self.start_s, 0.0))
        return Moment(at.bones, at.club, at.ball_m, walker)
