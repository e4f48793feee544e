"""Drills that are no full swing: a slow rehearsal held at a checkpoint, a club into the ground."""

from dataclasses import dataclass

import numpy as np

from baycue.synthetic.motion import Motion, Rehearsed
from baycue.synthetic.scene import Body, Moment
from baycue.synthetic.swing_motion import SwingMotion

STOPS_IN_S = 0.05
"""How long the club takes to come to rest in the ground; invented."""


@dataclass(frozen=True, slots=True)
class WithoutBall:
    """A motion with no ball in the bay."""

    inner: Motion

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.inner.body

    @property
    def duration_s(self) -> float:
        """As long as the motion."""
        return self.inner.duration_s

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """None: nothing is struck."""
        return ()

    def moment_at(self, time_s: float) -> Moment:
        """The motion's, the ball taken away."""
        moment = self.inner.moment_at(time_s)
        return Moment(moment.bones, moment.club, None, moment.walker)


def slow_to_p6(swing: SwingMotion, hold_s: float, slower: float = 1.0) -> WithoutBall:
    """From the ball slowly to the top, down to P6, held there, and on to the ball.

    ``slower``: 1 for 2 s back and 2 s down.
    """
    phases, pace = swing.phases, slower
    stops = [0.0, 0.8, 0.8 + 2 * pace, 1.0 + 2 * pace, 1.0 + 4 * pace, 1.0 + 4 * pace + hold_s]
    places = [phases.start_s, phases.start_s, phases.top_s, phases.top_s, phases.p6_s, phases.p6_s]
    on_s, ball_s = stops[-1] + pace, phases.impact_s
    clock = (*zip(stops, places, strict=True), (on_s, ball_s), (on_s + 0.5, ball_s))
    return WithoutBall(Rehearsed(swing, clock))


def held_from_s(slower: float = 1.0) -> float:
    """When ``slow_to_p6`` has come to P6."""
    return 1.0 + 4 * slower


def into_the_ground(swing: SwingMotion, stays_s: float = 1.2) -> WithoutBall:
    """A full backswing and downswing that ends at the ball, the club left there."""
    phases = swing.phases
    brakes_s = phases.impact_s - STOPS_IN_S / 2
    before = [float(t) for t in np.linspace(0.0, brakes_s, 60)]
    stopped_s = brakes_s + STOPS_IN_S
    clock = (*((t, t) for t in before), (stopped_s, phases.impact_s))
    return WithoutBall(Rehearsed(swing, (*clock, (stopped_s + stays_s, phases.impact_s))))
