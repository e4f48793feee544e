"""The swing that is still coming down: how far it has come, and when its strike is due."""

from dataclasses import replace

import numpy as np

from baycue.swing.events import StrikeSeen
from baycue.swing.full_swing import FULL_RISE, is_back
from baycue.swing.hands import FloatArray
from baycue.swing.segment_state import Phase, SegmentState, strike_of

CARRIED_NS = 25_000_000
"""So far beyond the last look a picture of the club can be used, the hands carried on."""

_PLANNED_NS = 20_000_000
"""So far is planned for; stamps are off by some milliseconds."""

_STEP_S = 0.0005
_EXPECTED_S = 0.05
"""So far ahead hands that are nearly back are expected to pass; faster than usual they need that
long from where they count as back."""
_ROUGHLY_NS = 5_000_000
"""By so much the look that tells a strike may move when the hands passed."""


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
    return is_back(state) and stamp_ns >= passed_ns(state) - _ROUGHLY_NS + look_ahead_ns


def strike_due_ns(state: SegmentState, look_ahead_ns: int) -> int | None:
    """From when on a frame tells a strike, if it is one; None while that is not known."""
    return passed_ns(state) + look_ahead_ns if is_back(state) else None


def pictured_until_ns(looked_ns: int, pictured_ns: int) -> int:
    """Until when a swing looked at so far can be told, with pictures up to ``pictured_ns``."""
    return min(max(pictured_ns, looked_ns), looked_ns + CARRIED_NS)


def first_to_tell_ns(stamp_ns: int, gap_ns: float, due_ns: int) -> float:
    """The stamp of the frame that, looked at, tells a strike with the first picture that is due.

    ``stamp_ns``: of a frame before that; they follow each other by ``gap_ns``.
    """
    frames = -((stamp_ns - due_ns) // gap_ns)
    return stamp_ns + (frames - _PLANNED_NS // gap_ns) * gap_ns


def hands_then_px(state: SegmentState, stamp_ns: int) -> FloatArray:
    """Where the hands are at a moment after the last look, going on as in the last two, (2,) px."""
    last = state.recent[-1]
    if len(state.recent) < 2:
        return last.hands_px
    before = state.recent[-2]
    share = (stamp_ns - last.stamp_ns) / (last.stamp_ns - before.stamp_ns)
    return np.asarray(last.hands_px + share * (last.hands_px - before.hands_px))


def passed_ns(state: SegmentState) -> int:
    """When the hands, on a smooth way through three looks, are nearest to the ball.

    Told by the looks and not by which of them was nearest, so that it is the same, to some
    milliseconds, whether every frame was looked at or every other.
    """
    assert state.anchor_px is not None
    after = next((k for k, s in enumerate(state.recent) if s.stamp_ns > state.return_ns), None)
    end = len(state.recent) if after is None else after + 1
    looks = state.recent[max(end - 3, 0) : max(end, 3)]
    times = np.array([s.stamp_ns - looks[-1].stamp_ns for s in looks]) * 1e-9
    off_px = np.array([s.hands_px for s in looks]) - state.anchor_px
    path = np.polynomial.polynomial.polyfit(times, off_px, len(looks) - 1)
    first_s, last_s = (times[-2], _EXPECTED_S) if after is None else times[[0, -1]]
    at_s = np.arange(first_s, last_s, _STEP_S)
    ways_px = np.polynomial.polynomial.polyval(at_s, path)
    nearest_s = at_s[np.argmin(np.square(ways_px).sum(axis=0))]
    return looks[-1].stamp_ns + round(float(nearest_s) * 1e9)
