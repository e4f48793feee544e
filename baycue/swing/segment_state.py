"""What the golfer is doing, and all that the segmentation remembers between two frames."""

from dataclasses import dataclass
from enum import Enum

import numpy as np

from baycue.pose.grip import HandsSeen
from baycue.swing.events import StrikeSeen
from baycue.swing.hands import FloatArray, HandSample


class Phase(Enum):
    """What the golfer is doing."""

    AWAY = "away from the ball"
    ADDRESS = "at address"
    BACK = "going back"
    DOWN = "coming down"
    STOPPED = "stopped at the ball"
    THROUGH = "through the ball"


@dataclass(frozen=True, slots=True)
class SegmentState:
    """What the segmentation remembers between two frames.

    ``through_told``: whether ThroughSeen has been told.
    ``top_ns``: when the hands were highest; ``lingered_ns``: until when they were about there,
    for some golfers pause at the top.
    """

    phase: Phase = Phase.AWAY
    recent: tuple[HandSample, ...] = ()
    anchor_px: FloatArray | None = None
    address_ns: int = 0
    takeaway_ns: int = 0
    top_ns: int = 0
    lingered_ns: int = 0
    top_rise: float = 0.0
    return_ns: int = 0
    nearest: float = np.inf
    unseen_ns: tuple[int, int] | None = None
    through_told: bool = False

    @property
    def hands_seen(self) -> tuple[HandsSeen, ...]:
        """Where both hands last held the club; empty if they may not be holding it."""
        if self.phase is Phase.AWAY:
            return ()
        return tuple(HandsSeen(s.stamp_ns, s.hands_px) for s in self.recent[-2:])


def strike_of(state: SegmentState) -> StrikeSeen:
    """The swing as it is remembered, its hands back at the ball."""
    return StrikeSeen(
        state.address_ns,
        state.takeaway_ns,
        state.top_ns,
        state.return_ns,
        unseen_ns=state.unseen_ns,
    )
