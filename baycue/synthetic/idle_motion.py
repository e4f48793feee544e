"""What golfers do between swings: stand up, regroup, tee a ball."""

from dataclasses import dataclass, replace
from math import inf

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.arms import put_arm
from baycue.synthetic.body_keys import BodyKey, key_from
from baycue.synthetic.curves import minimum_jerk
from baycue.synthetic.grip import ClubFrame, club_frame
from baycue.synthetic.hold import Held, elbow_pole, hold, mid_shoulder
from baycue.synthetic.posture import Hand
from baycue.synthetic.rotations import between
from baycue.synthetic.scene import Body, Moment
from baycue.synthetic.stance import standing, with_bent_legs
from baycue.synthetic.swing_motion import SwingMotion

FloatArray = NDArray[np.float64]


@dataclass(frozen=True, slots=True, eq=False)
class IdleKey:
    """A moment to pass through.

    ``hands_m``: (3,) lead wrist from mid-shoulder.  ``free_hand_m``: (3,) where the trail
    wrist is in the bay, None if it holds the club.
    """

    time_s: float
    body: BodyKey
    hands_m: FloatArray
    frame: ClubFrame
    free_hand_m: FloatArray | None = None


@dataclass(frozen=True, slots=True, eq=False)
class IdleMotion:
    """From one key to the next, at rest at each; the feet stay as in ``swing``.

    ``ball_from_s`` and ``ball_until_s``: when a ball lies there.
    """

    swing: SwingMotion
    keys: tuple[IdleKey, ...]
    ball_from_s: float = 0.0
    ball_until_s: float = inf

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.swing.body

    @property
    def duration_s(self) -> float:
        """Until the last key."""
        return self.keys[-1].time_s

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """None."""
        return ()

    def moment_at(self, time_s: float) -> Moment:
        """Everything that moves at a time."""
        before, after, share = self._between(time_s)
        rig = self.swing.rig
        vector = (1 - share) * before.body.vector() + share * after.body.vector()
        skeleton = standing(rig, self.swing.stance, key_from(vector))
        hands_m = (1 - share) * before.hands_m + share * after.hands_m
        frame = _frame_between(before.frame, after.frame, share)
        held = Held(mid_shoulder(skeleton) + hands_m, frame)
        club = hold(skeleton, held, self.swing.style.club_held.length_m)
        wrist_m = skeleton.head_of("hand_r")
        starts = wrist_m if before.free_hand_m is None else before.free_hand_m
        ends = wrist_m if after.free_hand_m is None else after.free_hand_m
        if before.free_hand_m is not None or after.free_hand_m is not None:
            reach_m = (1 - share) * starts + share * ends
            put_arm(skeleton, "r", Hand(reach_m, None, elbow_pole(skeleton, "r"), 0.4))
        lies = self.ball_from_s <= time_s < self.ball_until_s
        ball_m = self.swing.ball_at(0.0) if lies else None
        return Moment(skeleton.transforms(), club, ball_m)

    def _between(self, time_s: float) -> tuple[IdleKey, IdleKey, float]:
        for before, after in zip(self.keys, self.keys[1:], strict=False):
            if time_s <= after.time_s:
                span_s = after.time_s - before.time_s
                return before, after, minimum_jerk((time_s - before.time_s) / span_s)
        return self.keys[-1], self.keys[-1], 0.0


def _frame_between(before: ClubFrame, after: ClubFrame, share: float) -> ClubFrame:
    start, end = (np.column_stack([f.shaft, f.face, f.up]) for f in (before, after))
    turned = between(start, end, share)
    return ClubFrame(turned[:, 0], turned[:, 1], turned[:, 2])


def key_of(swing: SwingMotion, at_s: float, time_s: float) -> IdleKey:
    """The golfer as at a time of the swing, to be passed at ``time_s``."""
    held = swing.hands_at(at_s)
    return IdleKey(time_s, swing.key_at(at_s), held.wrist_m, held.frame)


def upright(swing: SwingMotion) -> BodyKey:
    """Standing up straight, the feet as at address."""
    address = swing.key_at(swing.phases.start_s)
    key = replace(
        address,
        hips_drop_m=0.02,
        hips_z_m=-0.04,
        pelvis_bend_deg=4.0,
        chest_bend_deg=6.0,
        chest_side_deg=0.0,
        head_bend_deg=14.0,
    )
    return with_bent_legs(swing.rig, swing.stance, key, 0.985)


def regroup(first: SwingMotion, second: SwingMotion, seconds: float = 2.2) -> IdleMotion:
    """From the finish of one swing to the address of the next; a new ball appears half-way."""
    arm_m = first.rig.arms["l"].length_m
    relaxed = IdleKey(
        0.45 * seconds,
        replace(upright(second), chest_turn_deg=25.0, pelvis_turn_deg=18.0),
        arm_m * np.array([0.30, -0.72, 0.50]),
        club_frame(np.array([0.35, 0.45, 0.82]), np.array([0.9, -0.2, -0.3])),
    )
    finish = key_of(first, first.duration_s, 0.0)
    address = key_of(second, second.phases.start_s, seconds)
    return IdleMotion(second, (finish, relaxed, address), ball_from_s=0.5 * seconds)


def tee_a_ball(swing: SwingMotion) -> IdleMotion:
    """Stand up, bend down to the ball with the trail hand, stand up, address it."""
    arm_m, rig = swing.rig.arms["l"].length_m, swing.rig
    ball_m = swing.contact_m
    cane = club_frame(np.array([0.25, -0.95, 0.2]), np.array([0.95, 0.2, 0.0]))
    bent = with_bent_legs(
        rig,
        swing.stance,
        replace(
            upright(swing),
            hips_drop_m=0.30,
            hips_z_m=-0.10,
            pelvis_bend_deg=52.0,
            chest_bend_deg=92.0,
            head_bend_deg=80.0,
            chest_turn_deg=10.0,
            trail_heel_deg=14.0,
        ),
        0.96,
    )
    by_side = np.array([-0.05, 0.90, 0.25])
    at_ball = np.array([ball_m[0] - 0.05, 0.16, ball_m[2] - 0.12])
    up_m, down_m = arm_m * np.array([0.45, -0.70, 0.30]), arm_m * np.array([0.75, 0.10, 0.35])
    straight = upright(swing)
    return IdleMotion(
        swing,
        (
            key_of(swing, swing.phases.start_s, 0.0),
            IdleKey(0.9, straight, up_m, cane, by_side),
            IdleKey(2.0, bent, down_m, cane, at_ball),
            IdleKey(2.6, bent, down_m, cane, at_ball),
            IdleKey(3.6, straight, up_m, cane, by_side),
            key_of(swing, swing.phases.start_s, 4.6),
        ),
        ball_from_s=2.3,
    )


def pick_up_a_ball(swing: SwingMotion) -> IdleMotion:
    """As ``tee_a_ball``, but the ball is taken away."""
    teed = tee_a_ball(swing)
    return replace(teed, ball_from_s=0.0, ball_until_s=teed.ball_from_s)


def lean_on_the_club(swing: SwingMotion, seconds: float, cross_trail_hand: bool) -> IdleMotion:
    """Stand up, lean on the club as on a stick, shifting a little, and address the ball again.

    ``cross_trail_hand``: the trail hand too rests on the grip; otherwise on the hip.
    """
    arm_m, body = swing.rig.arms["l"].length_m, upright(swing)
    stick = club_frame(np.array([0.12, -0.99, 0.10]), np.array([0.99, 0.12, 0.0]))
    leaning = replace(body, hips_x_m=0.04, pelvis_turn_deg=8.0, chest_side_deg=-6.0)
    shifted = replace(leaning, hips_x_m=0.01, chest_turn_deg=-14.0, head_turn_deg=-30.0)
    on_stick = arm_m * np.array([0.42, -0.82, 0.30])
    hip_m = swing.rig.hip_centre_m + np.array([-0.22, -0.02, 0.10])
    other = None if cross_trail_hand else hip_m
    return IdleMotion(
        swing,
        (
            key_of(swing, swing.phases.start_s, 0.0),
            IdleKey(1.3, leaning, on_stick, stick, other),
            IdleKey(0.5 * seconds, leaning, on_stick, stick, other),
            IdleKey(0.5 * seconds + 0.9, shifted, on_stick, stick, other),
            IdleKey(seconds - 1.2, shifted, on_stick, stick, other),
            key_of(swing, swing.phases.start_s, seconds),
        ),
    )
