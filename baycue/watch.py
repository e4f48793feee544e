"""Following one golfer glimpse by glimpse, from a recording or a live camera alike."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from baycue.glimpse import Glimpse
from baycue.plan.stance import View
from baycue.swing.events import SwingEvent
from baycue.swing.hands import HandSample, hand_sample
from baycue.swing.segment import LOOK_AHEAD_NS, advance
from baycue.swing.segment_state import SegmentState

REMEMBER_NS = 5_000_000_000
BEFORE_TAKEAWAY_NS = 250_000_000
"""How much before takeaway belongs to a swing."""
_SEEN_LATE_NS = 400_000_000
"""From behind, the hands start along the line of sight and are seen to go up to a third of a
second late."""


def before_takeaway_ns(view: View) -> int:
    """How much before the takeaway, as it is first seen, belongs to a swing."""
    return BEFORE_TAKEAWAY_NS + (_SEEN_LATE_NS if view is View.DOWN_THE_LINE else 0)


@dataclass(frozen=True, slots=True)
class Watch:
    """The last seconds' glimpses, oldest first, and what the golfer is doing."""

    segment: SegmentState = field(default_factory=SegmentState)
    memory: tuple[Glimpse, ...] = ()

    def after(
        self, glimpse: Glimpse, look_ahead_ns: int = LOOK_AHEAD_NS, pictured_ns: int = 0
    ) -> tuple["Watch", SwingEvent | None]:
        """One glimpse on; the event, if this glimpse completed one.

        ``look_ahead_ns`` and ``pictured_ns`` as for ``segment.advance``.
        """
        oldest_ns = glimpse.stamp_ns - REMEMBER_NS
        memory = (*_newer(self.memory, oldest_ns), glimpse)
        hands = hands_in(glimpse, self.segment)
        segment, event = advance(self.segment, hands, look_ahead_ns, pictured_ns)
        return Watch(segment, memory), event


def hands_in(glimpse: Glimpse, state: SegmentState) -> HandSample | None:
    """The hands in one glimpse, following where the segmentation last had them."""
    if glimpse.pose is None:
        return None
    return hand_sample(glimpse.pose, state.hands_seen)


def _newer(glimpses: Iterable[Glimpse], than_ns: int) -> tuple[Glimpse, ...]:
    return tuple(g for g in glimpses if g.stamp_ns >= than_ns)
