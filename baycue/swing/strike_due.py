"""The swing that is still coming down: how far it has come, and when its strike is due."""

from collections.abc import Sequence
from dataclasses import replace

from baycue.swing.events import StrikeSeen
from baycue.swing.full_swing import FULL_RISE, is_back
from baycue.swing.segment_state import Phase, SegmentState, strike_of


def strike_so_far(state: SegmentState) -> StrikeSeen | None:
    """The full swing whose hands have turned at the top, as far as it has come; None if none has.

    Up there the hands may linger and rise once more: then it was not the top yet.
    """
    if state.phase is Phase.STOPPED:
        return replace(strike_of(state), stops=True)
    if state.phase not in (Phase.BACK, Phase.DOWN) or state.top_rise < FULL_RISE:
        return None
    latest_ns = state.recent[-1].stamp_ns
    if latest_ns <= state.top_ns:
        return None
    return StrikeSeen(state.address_ns, state.takeaway_ns, state.top_ns, latest_ns)


def strike_may_be_told(state: SegmentState, stamp_ns: int, look_ahead_ns: int) -> bool:
    """Whether a frame of this moment may be the one with which a strike is told."""
    return is_back(state) and stamp_ns >= state.return_ns + look_ahead_ns


def strike_due_ns(state: SegmentState, stamps_ns: Sequence[int], look_ahead_ns: int) -> int | None:
    """From when on a frame had better tell a strike, if it is one; None while that is not known.

    ``stamps_ns``: of all frames from the hands' return on, looked at or not, up to the next that
    may be looked at.  If that is nearest to when the hands pass the ball it is to be looked at.  If
    one was that nobody looked at, a strike is looked at so long after it.
    """
    if not is_back(state):
        return None
    passed_ns = _passed_ns(state)
    nearest_ns = min(stamps_ns, key=lambda at_ns: abs(at_ns - passed_ns))
    if nearest_ns == stamps_ns[-1]:
        return None
    looked_at = any(s.stamp_ns == nearest_ns for s in state.recent)
    return (state.return_ns if looked_at else nearest_ns) + look_ahead_ns


def _passed_ns(state: SegmentState) -> int:
    """When the hands, going straight on from frame to frame, are nearest to the ball."""
    assert state.anchor_px is not None
    after = next((k for k, s in enumerate(state.recent) if s.stamp_ns > state.return_ns), None)
    before, last = state.recent[-2:] if after is None else state.recent[after - 1 : after + 1]
    way_px = last.hands_px - before.hands_px
    share = float((state.anchor_px - before.hands_px) @ way_px) / max(float(way_px @ way_px), 1.0)
    return before.stamp_ns + round(share * (last.stamp_ns - before.stamp_ns))
