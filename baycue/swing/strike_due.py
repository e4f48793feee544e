"""The swing that is still coming down: how far it has come, and when its strike is due."""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from baycue.swing.events import StrikeSeen
from baycue.swing.full_swing import FULL_RISE, is_back
from baycue.swing.segment_state import Phase, SegmentState, strike_of

_STEP_S = 0.0005
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


def strike_due_ns(state: SegmentState, stamps_ns: Sequence[int], look_ahead_ns: int) -> int | None:
    """From when on a frame tells a strike, if it is one; None while that is not known.

    ``stamps_ns``: of all frames from the hands' return on, looked at or not, up to the next that
    may be looked at.  If that is nearest to when the hands pass the ball it is to be looked at.
    """
    if not is_back(state):
        return None
    passes_ns = passed_ns(state)
    nearest_ns = min(stamps_ns, key=lambda at_ns: abs(at_ns - passes_ns))
    return None if nearest_ns == stamps_ns[-1] else passes_ns + look_ahead_ns


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
    first_s, last_s = times[-2:] if after is None else times[[0, -1]]
    at_s = np.arange(first_s, last_s + (last_s - first_s if after is None else 0.0), _STEP_S)
    ways_px = np.polynomial.polynomial.polyval(at_s, path)
    nearest_s = at_s[np.argmin(np.square(ways_px).sum(axis=0))]
    return looks[-1].stamp_ns + round(float(nearest_s) * 1e9)
