"""Finding swings in a stream, one pass, with no more look-ahead than a live tone allows.

A swing is: hands together and still at the ball, up past the shoulders, down fast and
through.  Waggles never rise, walking never holds still at the ball, a practice stop never
comes down fast or never goes through; each falls back to waiting.  Distances are in body
units (ankle to hip to shoulder, about three quarters of stature); all thresholds are ours,
set from what a full swing must do.
"""

from dataclasses import replace

import numpy as np

from baycue.swing.events import FinishSeen, StopSeen, SwingEvent, ThroughSeen
from baycue.swing.full_swing import (
    FULL_RISE,
    LONGEST_DOWNSWING_NS,
    RETURNED,
    SLOWEST_STRIKE_PER_S,
    from_ball,
    peak_speed_per_s,
    risen,
)
from baycue.swing.hands import HandSample
from baycue.swing.segment_state import Phase, SegmentState, strike_of
from baycue.swing.stillness import STILL_NS, at_the_ball, centre_px, is_still
from baycue.swing.strike_due import hands_then_px, passed_ns, pictured_until_ns
from baycue.swing.unseen import after_gap, gap_before

LOOK_AHEAD_NS = 34_000_000
"""How long after the hands have passed the ball a swing is announced: the hands lead the club, so
that some pictures of the club past the ball are there.  On random synthetic swings for development
(the bench's seeds 1, 4, 5 and 11; 17 at 60 frames a second, 30 at 120) impact is within 0.30 and
0.50 frames so (95 %), with 37 ms the same, with 30 ms within 0.6 and 0.7; P6 is the same with
each."""
LOOK_THROUGH_NS = 90_000_000
"""The same for one who wants to see the club through to P8."""

_MEMORY_NS = 400_000_000
_STILL_SPREAD = 0.035
_LEFT_THE_BALL = 0.12
_BACK_AT_THE_BALL = 0.07
_TURNED_DOWN = 0.08
_LINGERING = 0.05
"""In a pause at the top the hands are so far below their highest at the most."""
_LONGEST_BACKSWING_NS = 2_500_000_000
_LONGEST_FINISH_NS = 2_000_000_000
_GONE_THROUGH = 0.12
_GOES_ON_NS = 60_000_000
"""By then a club that goes through slowly has gone through."""
_FINISH_SPREAD = 0.05
_STAYED_NS = 250_000_000


def advance(
    state: SegmentState,
    sample: HandSample | None,
    look_ahead_ns: int = LOOK_AHEAD_NS,
    pictured_ns: int = 0,
) -> tuple[SegmentState, SwingEvent | None]:
    """Take in the next frame's hands (None: nobody seen) and tell what was completed.

    ``look_ahead_ns``: how long past the hands' passing the ball a strike is looked at before it is
    told.  ``pictured_ns``: until when there are pictures, if some have come that nobody looked for
    hands in: the last one counts if it is close behind.
    """
    if sample is None:
        return state, None
    gap = gap_before(state, sample)
    state = replace(state, recent=_remember(state.recent, sample))
    after = after_gap(state, gap) if gap else None
    if after is not None:
        return after, strike_of(after) if after.phase is Phase.THROUGH else None
    if state.phase is Phase.DOWN:
        until_ns = pictured_until_ns(sample.stamp_ns, pictured_ns)
        return _down(state, sample, look_ahead_ns, until_ns)
    return _STEPS[state.phase](state, sample)


def _remember(recent: tuple[HandSample, ...], sample: HandSample) -> tuple[HandSample, ...]:
    """The newest look before it is kept however old it is: speed and stillness need two."""
    oldest = sample.stamp_ns - _MEMORY_NS
    kept = tuple(s for s in recent if s.stamp_ns >= oldest) or recent[-1:]
    return (*kept, sample)


def _away(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    if not (at_the_ball(sample) and is_still(state.recent, sample, _STILL_SPREAD)):
        return state, None
    return _addressed(state, sample), None


def _addressed(state: SegmentState, sample: HandSample) -> SegmentState:
    return SegmentState(
        phase=Phase.ADDRESS,
        recent=state.recent,
        anchor_px=centre_px(state.recent, sample.stamp_ns - STILL_NS),
        address_ns=sample.stamp_ns,
        takeaway_ns=sample.stamp_ns,
    )


def _address(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    if at_the_ball(sample) and is_still(state.recent, sample, _STILL_SPREAD):
        return replace(_addressed(state, sample), address_ns=state.address_ns), None
    moved = from_ball(state, sample)
    if moved < _BACK_AT_THE_BALL / 2:
        return replace(state, takeaway_ns=sample.stamp_ns), None
    if moved < _LEFT_THE_BALL:
        return state, None
    return replace(state, phase=Phase.BACK, top_rise=risen(state, sample)), None


def _back(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    rise = risen(state, sample)
    if at_the_ball(sample) and is_still(state.recent, sample, _STILL_SPREAD):
        return _addressed(state, sample), None
    if sample.stamp_ns - state.takeaway_ns > _LONGEST_BACKSWING_NS:
        return replace(state, phase=Phase.AWAY), None
    if rise > state.top_rise:
        stamp_ns = sample.stamp_ns
        return replace(state, top_rise=rise, top_ns=stamp_ns, lingered_ns=stamp_ns), None
    if rise > state.top_rise - _LINGERING:
        return replace(state, lingered_ns=sample.stamp_ns), None
    if state.top_rise >= FULL_RISE and rise < state.top_rise - _TURNED_DOWN:
        return replace(state, phase=Phase.DOWN, nearest=np.inf), None
    if state.top_rise < FULL_RISE and from_ball(state, sample) < _BACK_AT_THE_BALL:
        return replace(state, phase=Phase.ADDRESS, top_rise=0.0), None
    return state, None


def _down(
    state: SegmentState, sample: HandSample, look_ahead_ns: int, until_ns: int
) -> tuple[SegmentState, SwingEvent | None]:
    if sample.stamp_ns - state.lingered_ns > LONGEST_DOWNSWING_NS:
        return replace(state, phase=Phase.AWAY), None
    if risen(state, sample) > state.top_rise:
        return replace(state, phase=Phase.BACK), None
    moved = from_ball(state, sample)
    if moved < state.nearest:
        state = replace(state, nearest=moved, return_ns=sample.stamp_ns)
    if state.nearest > RETURNED:
        return state, None
    since_ns = until_ns - passed_ns(state)
    if since_ns < look_ahead_ns:
        return state, None
    if peak_speed_per_s(state) < SLOWEST_STRIKE_PER_S:
        return replace(state, phase=Phase.AWAY), None
    then = replace(sample, hands_px=hands_then_px(state, until_ns))
    if from_ball(state, then) < _GONE_THROUGH:
        return (replace(state, phase=Phase.STOPPED) if since_ns >= _GOES_ON_NS else state), None
    return replace(state, phase=Phase.THROUGH), strike_of(state)


def _stopped(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    if from_ball(state, sample) >= _GONE_THROUGH:
        return replace(state, phase=Phase.AWAY), None
    if sample.stamp_ns < state.return_ns + _STAYED_NS:
        return state, None
    return replace(state, phase=Phase.AWAY), StopSeen(replace(strike_of(state), stops=True))


def _through(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    since = sample.stamp_ns - state.return_ns
    if since > _LONGEST_FINISH_NS:
        return replace(state, phase=Phase.AWAY), None
    if since >= LOOK_THROUGH_NS and not state.through_told:
        return replace(state, through_told=True), ThroughSeen()
    if since > 2 * STILL_NS and is_still(state.recent, sample, _FINISH_SPREAD):
        finished = FinishSeen(sample.stamp_ns - STILL_NS)
        return replace(state, phase=Phase.AWAY), finished
    return state, None


_STEPS = {
    Phase.AWAY: _away,
    Phase.ADDRESS: _address,
    Phase.BACK: _back,
    Phase.STOPPED: _stopped,
    Phase.THROUGH: _through,
}
