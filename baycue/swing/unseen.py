"""Hands that went past the ball while nobody looked, told by where they were before and after.

A camera or a busy machine leaves pictures out.  Two in a row at 30 a second, right at the ball,
and no look is near it any more, though a swing was plainly under way.
"""

from dataclasses import dataclass, replace

from baycue.swing.full_swing import (
    FULL_RISE,
    LONGEST_DOWNSWING_NS,
    RETURNED,
    SLOWEST_STRIKE_PER_S,
    from_ball,
    is_back,
    risen,
)
from baycue.swing.hands import FloatArray, HandSample
from baycue.swing.segment_state import Phase, SegmentState

LEAST_GAP_NS = 45_000_000
"""Looks closer than that in time are a camera's own rate."""
LONGEST_GAP_NS = 800_000_000
"""In more than that a golfer can have let the club down and stepped away."""
_ON_THE_OTHER_SIDE = 0.12
_FASTEST_PER_S = 10.0
"""Hands that would have had to go faster, to the ball and away again, have crossed above it."""


@dataclass(frozen=True, slots=True)
class Gap:
    """Two looks next to each other with time between; ``ball_px``: (2,) the hands at address."""

    before: HandSample
    after: HandSample
    ball_px: FloatArray

    @property
    def is_one(self) -> bool:
        """Whether something may have gone on in it that is one swing's."""
        return LEAST_GAP_NS < self.lasted_ns <= LONGEST_GAP_NS

    @property
    def lasted_ns(self) -> int:
        """From look to look."""
        return self.after.stamp_ns - self.before.stamp_ns

    @property
    def span_ns(self) -> tuple[int, int]:
        """When the looks were."""
        return self.before.stamp_ns, self.after.stamp_ns

    @property
    def passed_ns(self) -> int:
        """When the hands, going straight on, were nearest to the ball."""
        since_ns, until_ns = self.span_ns
        return since_ns + round(share_of_way(*self._way) * (until_ns - since_ns))

    @property
    def nearest(self) -> float:
        """How near they came to it on that straight way, body units."""
        before_px, after_px, ball_px = self._way
        there_px = before_px + share_of_way(*self._way) * (after_px - before_px)
        return _length(there_px - ball_px) / self.after.body_px

    @property
    def crossed(self) -> bool:
        """Whether they were clearly on one side of the ball and are clearly on the other."""
        before_px, after_px, ball_px = self._way
        sides = [float(p[0] - ball_px[0]) / self.after.body_px for p in (before_px, after_px)]
        return sides[0] * sides[1] < 0 and abs(sides[1]) > _ON_THE_OTHER_SIDE

    @property
    def _way(self) -> tuple[FloatArray, FloatArray, FloatArray]:
        return self.before.hands_px, self.after.hands_px, self.ball_px


def gap_before(state: SegmentState, sample: HandSample) -> Gap | None:
    """The time that nobody looked before this frame, if a full swing may have come down in it."""
    if state.phase not in (Phase.BACK, Phase.DOWN) or state.top_rise < FULL_RISE:
        return None
    assert state.anchor_px is not None
    gap = Gap(state.recent[-1], sample, state.anchor_px)
    return gap if gap.is_one else None


def after_gap(state: SegmentState, gap: Gap) -> SegmentState | None:
    """What follows from where the hands are after it; None if looks enough are there without it.

    Through if they have plainly gone past the ball, down if they are just about to.
    """
    before, after = from_ball(state, gap.before), from_ball(state, gap.after)
    unseen = replace(state, unseen_ns=gap.span_ns)
    if is_back(state):
        is_late = gap.after.stamp_ns - state.lingered_ns > LONGEST_DOWNSWING_NS
        high = FULL_RISE if is_late else state.top_rise
        return replace(unseen, phase=Phase.THROUGH) if risen(state, gap.after) > high else None
    if min(before, after) <= RETURNED:
        near = replace(unseen, phase=Phase.DOWN, nearest=after, return_ns=gap.after.stamp_ns)
        return near if state.phase is Phase.BACK else None
    passed = replace(unseen, nearest=gap.nearest, return_ns=gap.passed_ns)
    if gap.nearest <= RETURNED:
        return replace(passed, phase=Phase.DOWN)
    up_again = state.phase is Phase.DOWN and risen(state, gap.after) >= FULL_RISE
    per_s = (before + after) / (gap.lasted_ns * 1e-9)
    at_speed = SLOWEST_STRIKE_PER_S < per_s < _FASTEST_PER_S
    if at_speed and (gap.crossed or up_again):
        return replace(passed, phase=Phase.THROUGH)
    return None


def share_of_way(before_px: FloatArray, after_px: FloatArray, ball_px: FloatArray) -> float:
    """How much of the way from before to after, both (2,), leads to where the ball is nearest.

    From 0 to 1; not beyond either end.
    """
    way_px = after_px - before_px
    share = float((ball_px - before_px) @ way_px) / max(float(way_px @ way_px), 1.0)
    return min(max(share, 0.0), 1.0)


def _length(way_px: FloatArray) -> float:
    return float((way_px @ way_px) ** 0.5)
