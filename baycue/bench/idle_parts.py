"""Short pieces of what golfers do between swings, drawn at random."""

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from baycue.synthetic.flowing import Pace, half_swing, reach_overhead
from baycue.synthetic.idle_motion import lean_on_the_club, pick_up_a_ball, tee_a_ball
from baycue.synthetic.motion import Motion, practice_stop, rehearsal, standing_still, waggles
from baycue.synthetic.stretches import arms_overhead, side_bends, trunk_turns
from baycue.synthetic.swing_motion import SwingMotion

Random = np.random.Generator
Part = Callable[[Random, SwingMotion], Motion]

HIP_SHARE, BELLY_SHARE = 0.53, 0.64
"""Lead wrist of the highest half swings, of stature: hip height (0.530, Drillis & Contini 1966)
and a hand's breadth under the breastbone; the shoulders stand at 0.818."""


def waggle(rng: Random, swing: SwingMotion) -> Motion:
    """A few waggles, and standing still."""
    style = replace(swing.style, waggles=int(rng.integers(1, 5)), still_s=even(rng, 0.2, 1.5))
    return waggles(SwingMotion(swing.body, style))


def still(rng: Random, swing: SwingMotion) -> Motion:
    """Standing still at address."""
    return standing_still(swing, even(rng, 0.6, 2.5))


def stop(rng: Random, swing: SwingMotion) -> Motion:
    """Back a part of the way, held, and back to the ball."""
    return practice_stop(swing, even(rng, 0.25, 0.9))


def rehearse(_: Random, swing: SwingMotion) -> Motion:
    """Slowly back and down again, twice."""
    return rehearsal(swing)


def tee(_: Random, swing: SwingMotion) -> Motion:
    """Down to the ball and up again."""
    return tee_a_ball(swing)


def pick(_: Random, swing: SwingMotion) -> Motion:
    """As ``tee``, the ball taken away."""
    return pick_up_a_ball(swing)


def lean(rng: Random, swing: SwingMotion) -> Motion:
    """Leaning on the club."""
    return lean_on_the_club(swing, even(rng, 6.0, 10.0), chance(rng))


def half(rng: Random, swing: SwingMotion) -> Motion:
    """A half swing to between hip and belly, at a moderate speed."""
    pace = Pace(
        still_s=even(rng, 0.4, 1.2),
        back_s=even(rng, 0.6, 1.0),
        down_s=even(rng, 0.6, 1.0),
        hold_s=even(rng, 0.2, 0.8),
        home_s=even(rng, 0.9, 1.4),
    )
    return half_swing(swing, even(rng, HIP_SHARE, BELLY_SHARE), pace)


def chip(rng: Random, swing: SwingMotion) -> Motion:
    """Hands no higher than the hips, brisk."""
    pace = Pace(
        still_s=even(rng, 0.4, 1.0),
        back_s=even(rng, 0.45, 0.7),
        down_s=even(rng, 0.35, 0.55),
        hold_s=even(rng, 0.2, 0.6),
        home_s=even(rng, 0.8, 1.2),
    )
    return half_swing(swing, even(rng, HIP_SHARE - 0.05, HIP_SHARE), pace)


def overhead_from_address(rng: Random, swing: SwingMotion) -> Motion:
    """The club in both hands overhead, from the ball and back to it."""
    return reach_overhead(swing, even(rng, 0.9, 1.8), even(rng, 0.3, 1.5), even(rng, 0.7, 1.5))


def stretch(rng: Random, swing: SwingMotion, with_club: bool) -> Motion:
    """Arms overhead, side bends or trunk turns."""
    kind = (arms_overhead, side_bends, trunk_turns)[int(rng.integers(3))]
    return kind(swing, with_club)


def even(rng: Random, low: float, high: float) -> float:
    """Evenly between two values."""
    return float(rng.uniform(low, high))


def chance(rng: Random) -> bool:
    """One time in two."""
    return bool(rng.random() < 0.5)
