"""A drawn swing as the live loop shows it to a scorer."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache

from baycue.glimpse import Glimpse
from baycue.live.desk import Shown, Struck
from baycue.live.still import Still
from baycue.swing.events import FinishSeen, StrikeSeen, SwingEvent, ThroughSeen
from baycue.swing.strike_due import strike_so_far
from baycue.watch import Watch
from tests.filmed_swing import Film, glimpsed
from tests.test_spine import golfer


@dataclass(frozen=True)
class Step:
    """One glimpse shown, and what was seen in it."""

    shown: Shown
    event: SwingEvent | None

    @property
    def struck(self) -> Struck | None:
        """The first swing, if this glimpse completed it."""
        is_strike = isinstance(self.event, StrikeSeen)
        return Struck(1, self.event, self.shown.glimpse.stamp_ns) if is_strike else None  # type: ignore[arg-type]

    @property
    def gone_on(self) -> ThroughSeen | FinishSeen | None:
        """What came after the strike."""
        return self.event if isinstance(self.event, ThroughSeen | FinishSeen) else None


@cache
def filmed() -> tuple[Glimpse, ...]:
    """The swing at 60 frames a second, from when the golfer is believed to be there."""
    return tuple(g for g in glimpsed(Film(golfer(), fps=60)) if g.pose)


def steps(every: int = 1) -> Iterator[Step]:
    """The swing with every so many frames posed, and the others' stills."""
    watch, frames = Watch(), filmed()
    for k in range(0, len(frames), every):
        watch, event = watch.after(frames[k])
        skipped = frames[max(k - every + 1, 0) : k]
        stills = tuple(Still(g.frame_index, g.stamp_ns, g.grey) for g in skipped)
        coming_down = event if isinstance(event, StrikeSeen) else strike_so_far(watch.segment)
        yield Step(Shown(frames[k], stills, watch.memory[0].stamp_ns, coming_down), event)
