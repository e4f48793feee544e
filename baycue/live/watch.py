"""Following one golfer glimpse by glimpse: what stage it is, and when a swing is due."""

from collections.abc import Iterable
from dataclasses import dataclass, field, replace

from baycue.glimpse import Glimpse
from baycue.live.view import Stage
from baycue.swing.hands import hand_sample
from baycue.swing.segment import Phase, SegmentState, SwingEvent, advance

REMEMBER_NS = 5_000_000_000
BEFORE_TAKEAWAY_NS = 250_000_000

_STAGES = {
    Phase.AWAY: Stage.WAITING,
    Phase.ADDRESS: Stage.ADDRESS,
    Phase.BACK: Stage.SWING,
    Phase.DOWN: Stage.SWING,
    Phase.THROUGH: Stage.SWING,
}


@dataclass(frozen=True, slots=True)
class Watch:
    """The last seconds' glimpses and what the golfer is doing."""

    segment: SegmentState = field(default_factory=SegmentState)
    memory: tuple[Glimpse, ...] = ()

    def after(self, glimpse: Glimpse) -> tuple["Watch", SwingEvent | None]:
        """One glimpse on; the event, if this glimpse completed one."""
        oldest_ns = glimpse.stamp_ns - REMEMBER_NS
        memory = (*_newer(self.memory, oldest_ns), glimpse)
        segment, event = advance(self.segment, hand_sample(glimpse.pose) if glimpse.pose else None)
        return replace(self, segment=segment, memory=memory), event

    @property
    def stage(self) -> Stage:
        """What the golfer is doing, for the screen."""
        return _STAGES[self.segment.phase]


def _newer(glimpses: Iterable[Glimpse], than_ns: int) -> tuple[Glimpse, ...]:
    return tuple(g for g in glimpses if g.stamp_ns >= than_ns)
