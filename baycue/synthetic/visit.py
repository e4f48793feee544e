"""A golfer who walks into the bay, stands about and walks out again; and nobody at all."""

from dataclasses import dataclass, field
from math import cos, radians, sin

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.curves import Curve, minimum_jerk
from baycue.synthetic.scene import Body, ClubPose, Moment
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.walk import Walk

FloatArray = NDArray[np.float64]

_TURN_S = 0.9
_BUTT_ABOVE_HAND_M = 0.12


@dataclass(frozen=True, slots=True, eq=False)
class Visit:
    """Nobody, then a golfer in from -x to the middle, facing the camera, and out again.

    ``away_s``: nobody is there for so long before and after.
    """

    swing: SwingMotion
    walk: Walk
    away_s: float
    stay_s: float
    _back: Walk = field(init=False, repr=False)
    _clock: Curve = field(init=False, repr=False)

    def __post_init__(self) -> None:
        walk = self.walk
        back = Walk(walk.person, walk.z_m, 0.0, -walk.speed_m_s, walk.step_s)
        object.__setattr__(self, "_back", back)
        slow_s, in_s = walk.step_s, self._in_s
        clock = Curve([0.0, in_s - slow_s, in_s + slow_s], [0.0, in_s - slow_s, in_s])
        object.__setattr__(self, "_clock", clock)

    @property
    def _in_s(self) -> float:
        return -self.walk.from_x_m / self.walk.speed_m_s

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.swing.body

    @property
    def duration_s(self) -> float:
        """From nobody to nobody."""
        return 2 * self.away_s + 2 * self._in_s + self.stay_s + 2 * _TURN_S

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """None."""
        return ()

    def moment_at(self, time_s: float) -> Moment:
        """Everything that moves at a time."""
        inside_s = time_s - self.away_s
        if not 0 <= inside_s <= self.duration_s - 2 * self.away_s:
            return Moment(None)
        bones, facing_deg = self._golfer(inside_s)
        return Moment(bones, self._carried(bones, facing_deg))

    def _golfer(self, inside_s: float) -> tuple[FloatArray, float]:
        """The bones, and where they face: 90 deg walking in, 0 to the camera, -90 out."""
        settled_s = self._in_s + self.walk.step_s
        leaving_s = self._in_s + self.stay_s + 2 * _TURN_S
        if inside_s >= leaving_s:
            return self._back.bones_at(inside_s - leaving_s), -90.0
        bones = self.walk.bones_at(self._clock.scalar(inside_s))
        turned = minimum_jerk((inside_s - settled_s) / _TURN_S)
        turned += minimum_jerk((inside_s - leaving_s + _TURN_S) / _TURN_S)
        return _turned(bones, -90.0 * turned), 90.0 - 90.0 * turned

    def _carried(self, bones: FloatArray, facing_deg: float) -> ClubPose:
        """The club hanging from the lead hand, its head low and in front."""
        hand_m = bones[self.body.bone("middle_01_l"), :3, 3]
        facing = radians(facing_deg)
        shaft = np.array([0.62 * sin(facing), -0.78, 0.62 * cos(facing)])
        shaft /= np.linalg.norm(shaft)
        butt_m = hand_m - _BUTT_ABOVE_HAND_M * shaft
        head_m = butt_m + self.swing.style.club_held.length_m * shaft
        return ClubPose(butt_m, head_m, np.array([cos(facing), 0.0, -sin(facing)]))


def _turned(bones: FloatArray, turn_deg: float) -> FloatArray:
    """Turned about the vertical through the first bone's place, positive toward +x."""
    turn = radians(turn_deg)
    about = np.array([[cos(turn), 0.0, sin(turn)], [0.0, 1.0, 0.0], [-sin(turn), 0.0, cos(turn)]])
    middle_m = bones[:, :3, 3].mean(axis=0) * np.array([1.0, 0.0, 1.0])
    moved = bones.copy()
    moved[:, :3, :3] = about @ bones[:, :3, :3]
    moved[:, :3, 3] = (bones[:, :3, 3] - middle_m) @ about.T + middle_m
    return moved


@dataclass(frozen=True, slots=True, eq=False)
class Nobody:
    """An empty bay; a ball may lie in it."""

    swing: SwingMotion
    duration_s: float
    with_ball: bool

    @property
    def body(self) -> Body:
        """Of the golfer who is not there."""
        return self.swing.body

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """None."""
        return ()

    def moment_at(self, time_s: float) -> Moment:
        """Always the same."""
        return Moment(None, None, self.swing.ball_at(0.0) if self.with_ball else None)
