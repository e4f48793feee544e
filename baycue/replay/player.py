"""Where in a swing the replay is and how it moves; no clock of its own."""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, replace

SPEEDS = (1.0, 0.5, 0.25, 0.125)


@dataclass(frozen=True, slots=True)
class Player:
    """``at_ns`` within ``first_ns`` to ``last_ns``, moving at ``speed`` while ``playing``.

    ``loop_ns``: the stretch that is played again and again; None for all of it.
    """

    first_ns: int
    last_ns: int
    at_ns: float
    speed: float = 0.25
    playing: bool = True
    loop_ns: tuple[int, int] | None = None

    @property
    def stretch_ns(self) -> tuple[int, int]:
        """What is played: the loop, or all."""
        return self.loop_ns or (self.first_ns, self.last_ns)

    def after(self, elapsed_ns: float) -> "Player":
        """So much later on the wall; past the stretch's end it begins anew."""
        if not self.playing:
            return self
        low, high = self.stretch_ns
        at = self.at_ns + self.speed * elapsed_ns
        if not low <= at <= high:
            at = low + (at - low) % (high - low) if at > high > low else low
        return replace(self, at_ns=at)

    def paused(self, playing: bool = False) -> "Player":
        """Stopped, or going on."""
        return replace(self, playing=playing)

    def moved_to(self, time_ns: float) -> "Player":
        """Standing at a moment; a loop that does not hold it ends."""
        at = min(max(time_ns, self.first_ns), self.last_ns)
        loop = self.loop_ns if self.loop_ns and self.loop_ns[0] <= at <= self.loop_ns[1] else None
        return replace(self, at_ns=at, playing=False, loop_ns=loop)

    def stepped(self, stamps_ns: Sequence[int], by: int) -> "Player":
        """Standing so many pictures on (back if negative); the first and last are the ends."""
        here = (
            bisect_right(stamps_ns, self.at_ns) - 1
            if by > 0
            else bisect_left(stamps_ns, self.at_ns)
        )
        index = min(max(here + by, 0), len(stamps_ns) - 1)
        return self.moved_to(stamps_ns[index])

    def slower(self, by: int = 1) -> "Player":
        """The next slower speed; ``by`` -1 the next faster one."""
        nearest = min(SPEEDS, key=lambda s: abs(s - self.speed))
        index = min(max(SPEEDS.index(nearest) + by, 0), len(SPEEDS) - 1)
        return replace(self, speed=SPEEDS[index])

    def looping(self, stretch_ns: tuple[int, int] | None) -> "Player":
        """Playing a stretch again and again, or all for None."""
        if stretch_ns is None:
            return replace(self, loop_ns=None)
        return replace(self, loop_ns=stretch_ns, at_ns=stretch_ns[0], playing=True)


def speed_words(speed: float) -> str:
    """``1/4 speed``."""
    return "full speed" if speed == 1 else f"1/{round(1 / speed)} speed"
