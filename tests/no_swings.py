"""Tracks of hands, made up here, that are no full swings."""

import numpy as np

from tests.canned_swing import minimum_jerk
from tests.stick_golfer import FloatArray
from tests.streamed_hands import Track, on_the_arms_circle, swing_track, true_return_s

BALL = np.array([-0.09, 0.44])


def at_rest(_time_s: float) -> FloatArray:
    return BALL


def waggles(time_s: float) -> FloatArray:
    """Three waggles a second, a hand's breadth, with a lift."""
    sway = 0.10 * np.sin(2 * np.pi * 1.5 * time_s)
    return np.asarray(BALL + np.array([sway, -abs(sway) / 2]))


def walking_by(time_s: float) -> FloatArray:
    """Hands swing low beside a body that crosses the picture at 1.4 m/s."""
    return np.array([-3 + 1.1 * time_s, 0.42 - 0.08 * abs(np.sin(2 * np.pi * time_s))])


def bending_to_tee(time_s: float) -> FloatArray:
    """Down to the ground and up again, a second each way."""
    down = minimum_jerk(np.array(time_s)) - minimum_jerk(np.array(time_s - 2.0))
    return np.asarray(BALL + np.array([0.1 * down, 0.4 * down]))


def stretching_overhead(time_s: float) -> FloatArray:
    """Hands together overhead, held, and down again slowly."""
    up = minimum_jerk(np.array(time_s / 1.2)) - minimum_jerk(np.array((time_s - 2.5) / 1.2))
    return np.asarray(BALL + np.array([0.0, -0.95 * up]))


def stopped_half_way(time_s: float) -> FloatArray:
    """To the top, held for a second, then let down at leisure."""
    if time_s < 0:
        return swing_track(time_s)
    let_down = minimum_jerk(np.array((time_s - 1.0) / 1.5))
    return np.asarray(swing_track(0.0) + (swing_track(-2.0) - swing_track(0.0)) * let_down)


def stopped_coming_down(time_s: float) -> FloatArray:
    """Down at full pace for a while, then held short of the ball."""
    return swing_track(min(time_s, 0.2))


def to_waist_and_back(time_s: float) -> FloatArray:
    """A half backswing, to where the arm is parallel at the most, and back to the ball."""
    there = minimum_jerk(np.array(time_s / 0.7)) - minimum_jerk(np.array((time_s - 0.7) / 0.5))
    return on_the_arms_circle(float(-12 - 50 * there))


def short_chip(time_s: float) -> FloatArray:
    """Hands to knee height and briskly through: no full swing."""
    angles = np.interp(time_s, [0, 0.45, 0.5, 0.75, 0.9], [-12, -55, -55, 20, 25])
    return on_the_arms_circle(float(angles))


def even_paced_rehearsal(time_s: float) -> FloatArray:
    """Arm just past parallel and down through the ball at an even, gentle pace."""
    angles = np.interp(time_s, [0, 0.9, 1.31, 1.6], [-12, -95, -12, 46])
    return on_the_arms_circle(float(angles))


def pulled_up_at_the_ball(time_s: float) -> FloatArray:
    """Down at full pace and held where the ball lies."""
    return swing_track(min(time_s, true_return_s()))


def slow_rehearsal(time_s: float) -> FloatArray:
    """A whole swing at a third of its pace."""
    return swing_track(time_s, pace=1 / 3)


NO_SWINGS: dict[str, Track] = {
    "standing still": at_rest,
    "waggles": waggles,
    "walking by": walking_by,
    "bending to tee": bending_to_tee,
    "overhead stretch": stretching_overhead,
    "practice stop at the top": stopped_half_way,
    "stop on the way down": stopped_coming_down,
    "stop at the ball": pulled_up_at_the_ball,
    "short chip": short_chip,
    "even-paced rehearsal": even_paced_rehearsal,
    "half backswing and back": to_waist_and_back,
    "slow rehearsal": slow_rehearsal,
}
