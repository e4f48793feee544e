"""Which frames the pose model is spared, so that it is free for the one that tells a strike.

A strike is told by the pose in a frame past the ball and by the pictures just after it, which
come while the model is at that pose.  If it is still busy with the frame before when that one
comes, golfer and tone wait for both.
"""

from dataclasses import dataclass, replace

from baycue.swing.segment_state import SegmentState
from baycue.swing.strike_due import (
    CARRIED_NS,
    first_to_tell_ns,
    strike_due_ns,
    strike_may_be_told,
)

_SHARE_IF_LONGER, _SHARE_IF_SHORTER = 0.5, 0.1
"""While a swing comes down a pose takes longer, for the cores have more to do."""
_SMALL_DELAY_NS = 6_000_000
"""A pose nearer to impact is worth it.  Simulated on 26 random swings at 60 frames a second (seeds
1, 4 and 5, for development), 22, 26 and 30 ms a pose: impact within 0.19 frames (95 %) and the
head at impact off by 5.9 mm RMS, the deciding pose ready 58 ms after the impact frame (95 %); with
the last picture posed too, 37 ms past the ball, 0.20 frames, 4.8 mm and 71 ms."""
_STALE_NS = 150_000_000
"""Who looks at pictures as old as this cannot tell when the next will come."""


@dataclass(frozen=True, slots=True)
class Pacing:
    """A pure fold over the frames that the pose model may be given.

    ``pose_ns``: how long it usually takes over one, until the next can be given.  ``gap_ns``: from
    frame to frame of the camera.  ``index`` and ``stamp_ns``: of the frame last seen.
    """

    pose_ns: float = 0.0
    gap_ns: float = 0.0
    index: int = -1
    stamp_ns: int = 0

    def seen(self, index: int, stamp_ns: int) -> "Pacing":
        """One frame on, given to the model or not."""
        gap_ns = self.gap_ns
        if 0 <= self.index < index:
            gap_ns = (stamp_ns - self.stamp_ns) / (index - self.index)
        return replace(self, gap_ns=gap_ns, index=index, stamp_ns=stamp_ns)

    def posed(self, took_ns: int) -> "Pacing":
        """The model has been through one more."""
        usual_ns = self.pose_ns or took_ns
        share = _SHARE_IF_LONGER if took_ns > usual_ns else _SHARE_IF_SHORTER
        return replace(self, pose_ns=usual_ns + share * (took_ns - usual_ns))

    def is_spared(self, state: SegmentState, look_ahead_ns: int, now_ns: int) -> bool:
        """Whether the frame last seen had better not be posed.

        Not to be late for the one that tells a strike, and not to tell it with too few pictures
        past the ball.
        """
        due_ns = strike_due_ns(state, look_ahead_ns)
        if due_ns is None or self.stamp_ns >= due_ns or now_ns > self.stamp_ns + _STALE_NS:
            return False
        if self.gap_ns <= 0:
            return False
        tells_ns = first_to_tell_ns(self.stamp_ns, self.gap_ns, due_ns)
        if self.stamp_ns >= tells_ns:
            return False
        too_soon = strike_may_be_told(state, self.stamp_ns, look_ahead_ns)
        return too_soon or now_ns + self.pose_ns > tells_ns + _SMALL_DELAY_NS

    def ends(
        self, state: SegmentState, posing_ns: int | None, stamp_ns: int, look_ahead_ns: int
    ) -> bool:
        """Whether, with this picture, all have come that others wait for.

        If the pose under way, of ``posing_ns``, tells the strike.  Where pictures follow each
        other fast, none waits for the last one (``club.look``).
        """
        last_ns = round(stamp_ns + (self.gap_ns if self.gap_ns <= CARRIED_NS else 0))
        if posing_ns is None or last_ns > posing_ns + CARRIED_NS:
            return False
        return strike_may_be_told(state, last_ns, look_ahead_ns)
