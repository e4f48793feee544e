"""Club in both hands, passing from shape to shape without stopping: half swings and stretches."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.body_keys import key_from
from baycue.synthetic.curves import Curve, resting_curve
from baycue.synthetic.grip import club_frame
from baycue.synthetic.hold import Held, hold, mid_shoulder
from baycue.synthetic.idle_motion import IdleKey, key_of, upright
from baycue.synthetic.scene import Body, Moment
from baycue.synthetic.stance import standing
from baycue.synthetic.swing_motion import SwingMotion

FloatArray = NDArray[np.float64]

_BODY_NUMBERS = 20


@dataclass(frozen=True, slots=True, eq=False)
class Flowing:
    """A smooth curve through keys that holds the grip with both hands; the ball stays."""

    swing: SwingMotion
    keys: tuple[IdleKey, ...]
    _curve: Curve = field(init=False, repr=False)

    def __post_init__(self) -> None:
        times_s = [key.time_s for key in self.keys]
        rows = np.array([_row(key) for key in self.keys])
        object.__setattr__(self, "_curve", resting_curve(times_s, rows))

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
        row = self._curve(time_s)
        body, hands_m = key_from(row[:_BODY_NUMBERS]), row[_BODY_NUMBERS : _BODY_NUMBERS + 3]
        skeleton = standing(self.swing.rig, self.swing.stance, body)
        frame = club_frame(row[-6:-3], row[-3:])
        held = Held(mid_shoulder(skeleton) + hands_m, frame)
        club = hold(skeleton, held, self.swing.style.club_held.length_m)
        return Moment(skeleton.transforms(), club, self.swing.ball_at(0.0))


def _row(key: IdleKey) -> FloatArray:
    return np.concatenate([key.body.vector(), key.hands_m, key.frame.shaft, key.frame.face])


@dataclass(frozen=True, slots=True)
class Pace:
    """How long each part of a half swing takes, s; ``down_s`` is down and through."""

    still_s: float = 0.6
    back_s: float = 0.8
    down_s: float = 0.6
    hold_s: float = 0.5
    home_s: float = 1.1


def half_swing(swing: SwingMotion, highest_share: float, pace: Pace) -> Flowing:
    """Back and through with the lead wrist no higher than a share of the stature.

    Raises ValueError for a height that the swing does not pass on its way.
    """
    goal_m = highest_share * swing.body.stature_m
    start, impact = swing.phases.start_s, swing.phases.impact_s
    back = _passing(swing, goal_m, start, swing.phases.top_s)
    through = _passing(swing, goal_m, impact, swing.phases.finish_s)
    begin = pace.still_s + pace.back_s
    down = begin + pace.down_s
    half_down = replace(
        key_of(swing, (start + back) / 2, begin + 0.32 * pace.down_s),
        body=key_from(
            (key_of(swing, back, 0.0).body.vector() + key_of(swing, impact, 0.0).body.vector()) / 2
        ),
    )
    keys = (
        key_of(swing, start, 0.0),
        key_of(swing, start, pace.still_s),
        key_of(swing, (start + back) / 2, pace.still_s + 0.5 * pace.back_s),
        key_of(swing, back, begin),
        half_down,
        key_of(swing, impact, begin + 0.55 * pace.down_s),
        key_of(swing, (impact + through) / 2, begin + 0.75 * pace.down_s),
        key_of(swing, through, down),
        key_of(swing, through, down + pace.hold_s),
        key_of(swing, start, down + pace.hold_s + pace.home_s),
    )
    return Flowing(swing, keys)


def _passing(swing: SwingMotion, height_m: float, low_s: float, high_s: float) -> float:
    """The time between two at which the rising lead wrist is that high."""
    for time_s in np.linspace(low_s, high_s, 30):
        if _wrist_height_m(swing, float(time_s)) >= height_m:
            low_s, high_s = max(low_s, float(time_s) - (high_s - low_s) / 29), float(time_s)
            break
    else:
        raise ValueError(f"the lead wrist is never {height_m:.2f} m high")
    for _ in range(6):
        middle_s = (low_s + high_s) / 2
        under = _wrist_height_m(swing, middle_s) < height_m
        low_s, high_s = (middle_s, high_s) if under else (low_s, middle_s)
    return low_s


def _wrist_height_m(swing: SwingMotion, time_s: float) -> float:
    return float(swing.golfer_at(time_s)[0].head_of("hand_l")[1])


def reach_overhead(swing: SwingMotion, up_s: float, held_s: float, down_s: float) -> Flowing:
    """From address, the club in both hands, stretch it overhead and come back to the ball."""
    arm_m, body = swing.rig.arms["l"].length_m, upright(swing)
    tall = replace(body, head_bend_deg=-8.0, chest_bend_deg=-4.0, pelvis_bend_deg=0.0)
    overhead = IdleKey(
        0.5 + up_s,
        tall,
        arm_m * np.array([0.05, 0.93, 0.20]),
        club_frame(np.array([-0.25, 0.85, -0.46]), np.array([0.9, 0.3, 0.1])),
    )
    before = IdleKey(
        0.5 + 0.5 * up_s,
        body,
        arm_m * np.array([0.03, -0.05, 0.92]),
        club_frame(np.array([-0.05, 0.62, 0.78]), np.array([0.99, 0.05, 0.0])),
    )
    end = 0.5 + up_s + held_s
    start = swing.phases.start_s
    return Flowing(
        swing,
        (
            key_of(swing, start, 0.0),
            key_of(swing, start, 0.5),
            before,
            overhead,
            replace(overhead, time_s=end),
            replace(before, time_s=end + 0.5 * down_s),
            key_of(swing, start, end + down_s),
            key_of(swing, start, end + down_s + 0.5),
        ),
    )
