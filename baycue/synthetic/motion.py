"""What any motion can be asked, and motions made of other motions."""

from dataclasses import dataclass
from typing import Protocol

from baycue.synthetic.curves import Curve
from baycue.synthetic.scene import Body, Moment
from baycue.synthetic.swing_motion import SwingMotion


class Motion(Protocol):
    """Anything that moves in the bay for a while."""

    @property
    def body(self) -> Body:
        """The golfer's body."""
        ...

    @property
    def duration_s(self) -> float:
        """How long it lasts."""
        ...

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """The full swings in it, each with the time at which its own clock reads 0."""
        ...

    def moment_at(self, time_s: float) -> Moment:
        """Everything that moves, at a time from 0 to ``duration_s``."""
        ...


@dataclass(frozen=True, slots=True)
class OneAfterAnother:
    """Motions of one body played in turn; each should start as the one before ends."""

    parts: tuple[Motion, ...]

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.parts[0].body

    @property
    def duration_s(self) -> float:
        """All of them."""
        return sum(part.duration_s for part in self.parts)

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """The full swings of every part."""
        found, start_s = [], 0.0
        for part in self.parts:
            found += [(start_s + at_s, swing) for at_s, swing in part.swings]
            start_s += part.duration_s
        return tuple(found)

    def moment_at(self, time_s: float) -> Moment:
        """The moment of whichever part is on."""
        for part in self.parts[:-1]:
            if time_s < part.duration_s:
                return part.moment_at(time_s)
            time_s -= part.duration_s
        return self.parts[-1].moment_at(min(time_s, self.parts[-1].duration_s))


@dataclass(frozen=True, slots=True)
class Rehearsed:
    """A swing's path walked at another pace: no strike, the ball stays.

    ``clock``: (time here, time in the swing) pairs, seconds, run through smoothly.
    """

    swing: SwingMotion
    clock: tuple[tuple[float, float], ...]

    @property
    def body(self) -> Body:
        """The golfer's body."""
        return self.swing.body

    @property
    def duration_s(self) -> float:
        """Until the last pair."""
        return self.clock[-1][0]

    @property
    def swings(self) -> tuple[tuple[float, SwingMotion], ...]:
        """None: a rehearsal is no swing."""
        return ()

    def moment_at(self, time_s: float) -> Moment:
        """The swing's moment at the rehearsal's pace, the ball untouched."""
        times, inner = zip(*self.clock, strict=True)
        at = self.swing.moment_at(Curve(times, list(inner)).scalar(time_s))
        return Moment(at.bones, at.club, self.swing.ball_at(0.0))


def standing_still(swing: SwingMotion, seconds: float) -> Rehearsed:
    """At address, not moving."""
    return Rehearsed(swing, ((0.0, 0.0), (seconds, 0.0)))


def waggles(swing: SwingMotion) -> Rehearsed:
    """Whatever the swing's style does before it begins: waggles, and standing still."""
    start_s = swing.phases.start_s
    return Rehearsed(swing, ((0.0, 0.0), (start_s, start_s)))


def practice_stop(swing: SwingMotion, share: float = 0.5) -> Rehearsed:
    """Back to a share of the backswing, held, and back to the ball."""
    start, stop = swing.phases.start_s, swing.phases.back(share)
    return Rehearsed(
        swing, ((0.0, start), (0.4, start), (1.3, stop), (2.0, stop), (3.1, start), (3.5, start))
    )


def rehearsal(swing: SwingMotion) -> Rehearsed:
    """Slowly back to three quarters and down again, twice, never reaching the top."""
    start, stop = swing.phases.start_s, swing.phases.back(0.62)
    return Rehearsed(
        swing,
        ((0.0, start), (0.4, start), (1.4, stop), (2.4, start), (3.4, stop), (4.4, start)),
    )
