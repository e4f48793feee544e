"""A whole swing: address, back, down, through, finish, as one function of time."""

from math import radians, sin

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arm_angles import frame_at, lead_wrist
from baycue.synthetic.arm_motion import WAGGLE_S, ArmMotion
from baycue.synthetic.body_keys import BodyKey
from baycue.synthetic.body_motion import BodyMotion
from baycue.synthetic.club_physics import Downswing, downswing
from baycue.synthetic.hold import Held, hold, mid_shoulder
from baycue.synthetic.pace import pace_of
from baycue.synthetic.phases import Phases
from baycue.synthetic.rig import Rig
from baycue.synthetic.scene import Body, ClubPose, Moment
from baycue.synthetic.skeleton import Skeleton
from baycue.synthetic.stance import Stance
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.through import Through

FloatArray = NDArray[np.float64]

BALL_SPEED_M_S = {"wedge": 38.0, "iron": 50.0, "driver": 65.0}
BALL_RISE_DEG = {"wedge": 28.0, "iron": 18.0, "driver": 12.0}
BALL_GONE_M = 9.0


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


class SwingMotion:
    """One golfer's swing as a function of time, right-handed, in the bay's axes."""

    def __init__(self, body: Body, style: SwingStyle) -> None:
        self.body, self.style, self.rig = body, style, Rig(body)
        club = style.club_held
        down = downswing(style.release_angles, style.downswing_s)
        even = _phases(style, down)
        self._pace = pace_of(style.oddity, even)
        self._even_p8_s, self.phases = even.p8_s, self._pace.of(even)
        self.stance = Stance(club.stance_share * body.stature_m / 2)
        self._body_motion = BodyMotion(self.rig, style, self.stance, even)
        self._arms = ArmMotion(self._body_motion, style, down, even)
        self._through = Through(self.rig, self._body_motion, self._arms, down, even)

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
        even_s = self._pace.even_s(time_s)
        skeleton = self._body_motion.skeleton_at(even_s)
        held = self._held(even_s, skeleton)
        return skeleton, hold(skeleton, held, self.style.club_held.length_m)

    def key_at(self, time_s: float) -> BodyKey:
        """The body's numbers at a time."""
        return self._body_motion.key_at(self._pace.even_s(time_s))

    def hands_at(self, time_s: float) -> Held:
        """The lead wrist from mid-shoulder, and the club's directions."""
        even_s = self._pace.even_s(time_s)
        skeleton = self._body_motion.trunk_at(even_s)
        held = self._held(even_s, skeleton)
        return Held(held.wrist_m - mid_shoulder(skeleton), held.frame)

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

    def _held(self, even_s: float, skeleton: Skeleton) -> Held:
        if even_s <= self._even_p8_s:
            angles = self._arms.angles_at(even_s)
            wrist_m = lead_wrist(self.rig, skeleton.head_of("upperarm_l"), angles)
            return Held(wrist_m, frame_at(angles))
        return self._through(even_s, skeleton)
