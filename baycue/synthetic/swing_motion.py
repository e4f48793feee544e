"""A whole swing: address, back, down, through, finish, as one function of time."""

from dataclasses import dataclass
from math import radians, sin

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arm_motion import WAGGLE_S, ArmAngles, ArmMotion, frame_at, lead_wrist
from baycue.synthetic.body_keys import Stance
from baycue.synthetic.body_motion import BodyMotion, Phases
from baycue.synthetic.club_physics import Downswing, downswing
from baycue.synthetic.curves import Curve, Handover
from baycue.synthetic.grip import (
    ClubFrame,
    club_frame,
    club_in_lead_hand,
    holding_hand,
)
from baycue.synthetic.inverse_kinematics import soft_limit
from baycue.synthetic.posture import Skeleton, put_arm
from baycue.synthetic.rig import Rig
from baycue.synthetic.scene import Body, ClubPose, Moment
from baycue.synthetic.swing_style import SwingStyle

FloatArray = NDArray[np.float64]

BALL_SPEED_M_S = {"wedge": 38.0, "iron": 50.0, "driver": 65.0}
BALL_RISE_DEG = {"wedge": 28.0, "iron": 18.0, "driver": 12.0}
BALL_GONE_M = 9.0
ELBOW_POLES = {"l": np.array([0.45, -0.75, -0.25]), "r": np.array([-0.25, -0.75, -0.60])}
"""Where elbows point in the chest's own axes: down, out and a little back."""

FINISH_SHARE = 0.80
"""The hands are home before the body: this share of P8 to finish."""
# Hands from mid-shoulder, as shares of an arm's length (world axes), and the shaft's way.
HANDS_VIA = np.array([[0.88, 0.15, -0.02], [0.66, 0.56, -0.22]])
VIA_SHARES = (0.14, 0.34)
HANDS_HOME = np.array([0.36, 0.62, -0.42])
SHAFT_HOME_DEG, SHAFT_HOME_PLANE_DEG = 288.0, 112.0


def _phases(style: SwingStyle, down: Downswing) -> Phases:
    start = style.waggles * WAGGLE_S + style.still_s
    top = start + style.backswing_s
    return Phases(
        start,
        top,
        top + down.time_of_shaft(-90.0),
        top + down.duration_s,
        top + down.time_of_shaft(90.0),
        top + down.duration_s + style.finish_s,
    )


@dataclass(frozen=True, slots=True, eq=False)
class _Held:
    """The lead wrist and the club's directions."""

    wrist_m: FloatArray
    frame: ClubFrame


class SwingMotion:
    """One golfer's swing as a function of time, right-handed, in the bay's axes."""

    def __init__(self, body: Body, style: SwingStyle) -> None:
        self.body, self.style, self.rig = body, style, Rig(body)
        club = style.club_held
        down = downswing(style.release_angles, style.downswing_s)
        self.phases = _phases(style, down)
        self.stance = Stance(club.stance_share * body.stature_m / 2)
        self.body_motion = BodyMotion(self.rig, style, self.stance, self.phases)
        self._arms = ArmMotion(self.body_motion, style, down, self.phases)
        self._down = down
        self._through = self._plan_through()

    def __reduce__(self) -> tuple[type["SwingMotion"], tuple[Body, SwingStyle]]:
        """Travel to another process as what it is made from."""
        return SwingMotion, (self.body, self.style)

    @property
    def swings(self) -> "tuple[tuple[float, SwingMotion], ...]":
        """Itself, starting at 0."""
        return ((0.0, self),)

    @property
    def duration_s(self) -> float:
        """Length of the whole motion, hold included."""
        return self.phases.finish_s + self.style.hold_s

    def moment_at(self, time_s: float) -> Moment:
        """Everything that moves, at a time from 0 to ``duration_s``."""
        skeleton, club = self.golfer_at(time_s)
        return Moment(skeleton.transforms(), club, self.ball_at(time_s))

    def golfer_at(self, time_s: float) -> tuple[Skeleton, ClubPose]:
        """The golfer's bones in place, and the club."""
        skeleton = self.body_motion.skeleton_at(time_s)
        held = self._held(time_s, skeleton)
        length_m = self.style.club_held.length_m
        club = club_in_lead_hand(self.rig, held.wrist_m, held.frame, length_m)
        chest = skeleton.turn_of("spine_03")
        for side, pole in ELBOW_POLES.items():
            put_arm(skeleton, side, holding_hand(self.rig, club, side, chest @ pole))
        return skeleton, club

    @property
    def contact_m(self) -> FloatArray:
        """(3,) the middle of the club head when its face reaches the ball."""
        return self._arms.contact_m

    def ball_at(self, time_s: float) -> FloatArray | None:
        """(3,) the ball: at rest until impact, then off; None once it has left the picture."""
        since = time_s - self.phases.impact_s
        if since <= 0:
            return self._arms.ball_m
        name = self.style.club
        rise, way = radians(BALL_RISE_DEG[name]), BALL_SPEED_M_S[name] * since
        ball = self._arms.ball_m + way * np.array([np.cos(rise), sin(rise), 0.0])
        return ball if way < BALL_GONE_M else None

    def _held(self, time_s: float, skeleton: Skeleton) -> _Held:
        if time_s <= self.phases.p8_s:
            angles = self._arms.angles_at(time_s)
            wrist_m = lead_wrist(self.rig, skeleton.head_of("upperarm_l"), angles)
            return _Held(wrist_m, frame_at(angles))
        return self._through(time_s, skeleton)

    def _plan_through(self) -> "Through":
        return Through(self.rig, self.body_motion, self._arms, self._down, self.phases)


def mid_shoulder(skeleton: Skeleton) -> FloatArray:
    """(3,) half-way between the shoulder joints."""
    return (skeleton.head_of("upperarm_l") + skeleton.head_of("upperarm_r")) / 2


class Through:
    """Hands and club from P8 to the finish, taking over position and speed at P8."""

    def __init__(
        self,
        rig: Rig,
        body: BodyMotion,
        arms: ArmMotion,
        down: Downswing,
        phases: Phases,
    ) -> None:
        start, home = phases.p8_s, phases.p8_s + FINISH_SHARE * (phases.finish_s - phases.p8_s)
        arm_m = rig.arms["l"].length_m

        def hands(time_s: float) -> FloatArray:
            skeleton = body.trunk_at(time_s)
            wrist_m = lead_wrist(rig, skeleton.head_of("upperarm_l"), arms.angles_at(time_s))
            return wrist_m - mid_shoulder(skeleton)

        step = 1e-5
        rate = (hands(start) - hands(start - step)) / step
        points = np.array([hands(start), *(arm_m * HANDS_VIA), arm_m * HANDS_HOME])
        via = [start + share * (home - start) for share in VIA_SHARES]
        self._hands = Handover([start, *via, home], points, rate)
        self._radius_m = float(np.linalg.norm(points[0]))
        shaft_rate = down.shaft_rate_deg_s(start - phases.top_s)
        swing_s = min(home - start, 2.8 * (SHAFT_HOME_DEG - 90.0) / shaft_rate)
        self._shaft = Handover(
            [start, start + swing_s],
            np.array([[90.0], [SHAFT_HOME_DEG]]),
            np.array([shaft_rate]),
        )
        before = arms.angles_at(start)
        self._plane = Curve(
            [start, home], np.array([[before.shaft_plane_deg], [SHAFT_HOME_PLANE_DEG]])
        )
        self._roll = before.roll_deg

    def __call__(self, time_s: float, skeleton: Skeleton) -> _Held:
        """The lead wrist and club directions at a time after P8."""
        shaft, plane = float(self._shaft(time_s)[0]), float(self._plane(time_s)[0])
        frame = frame_at(ArmAngles(0.0, shaft, 0.0, plane, self._roll))
        return _Held(mid_shoulder(skeleton) + self._reachable(time_s), frame)

    def _reachable(self, time_s: float) -> FloatArray:
        """Hands from mid-shoulder, hardly further out than they were at P8."""
        hands = self._hands(time_s)
        share = float(np.linalg.norm(hands)) / self._radius_m
        return np.asarray(hands * soft_limit(share, 1.0, 1.04) / share)


__all__ = ["SwingMotion", "club_frame", "mid_shoulder"]
