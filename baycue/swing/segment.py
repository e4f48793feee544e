"""Finding swings in a stream, one pass, with no more look-ahead than a live tone allows.

A swing is: hands together and still at the ball, up past the shoulders, down fast and
through.  Waggles never rise, walking never holds still at the ball, a practice stop never
comes down fast or never goes through; each falls back to waiting.  Distances are in body
units (ankle to hip to shoulder, about three quarters of stature); all thresholds are ours,
set from what a full swing must do.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import Enum

import numpy as np

from baycue.pose.grip import HandsSeen, going_to_px
from baycue.swing.hands import FloatArray, HandSample
from baycue.swing.unseen import Gap

LOOK_AHEAD_NS = 45_000_000
"""How long after the hands return to the ball a swing is announced: the hands lead the club, so
that some pictures of the club past the ball are there.  At 30 frames a second that is two frames,
at 60 three.  On 15 random synthetic swings at 60 and 120 frames a second (seed 3, for development)
impact and P6 came out at 3.7 and 1.8 ms RMS so; with 60 ms at 4.5 and 1.9, with 35 at 5.1 and
1.8."""
LOOK_THROUGH_NS = 90_000_000
"""The same for one who wants to see the club through to P8."""

_MEMORY_NS = 400_000_000
_STILL_NS = 200_000_000
_STILL_SPREAD = 0.035
_TOGETHER = 0.30
_LOW = 0.25
_LEFT_THE_BALL = 0.12
_BACK_AT_THE_BALL = 0.07
_FULL_RISE = 0.60
_TURNED_DOWN = 0.08
_LINGERING = 0.02
_RETURNED = 0.22
_LONGEST_BACKSWING_NS = 2_500_000_000
_LONGEST_DOWNSWING_NS = 650_000_000
_LONGEST_FINISH_NS = 2_000_000_000
_SLOWEST_STRIKE_PER_S = 1.8
_GONE_THROUGH = 0.12
_FINISH_SPREAD = 0.05
_STAYED_NS = 250_000_000
_FASTEST_PER_S = 10.0
"""Hands that would have had to go faster, to the ball and away again, have crossed above it."""
_FOLLOWS_NS = 60_000_000
"""The hands stop before the club has: what is looked at of a swing that stops."""


class Phase(Enum):
    """What the golfer is doing."""

    AWAY = "away from the ball"
    ADDRESS = "at address"
    BACK = "going back"
    DOWN = "coming down"
    STOPPED = "stopped at the ball"
    THROUGH = "through the ball"


@dataclass(frozen=True, slots=True)
class StrikeSeen:
    """A full swing has come back to the ball; times are rough, to the frame.

    ``stops``: the club stays there and goes no further; pictures from later tell nothing.
    ``unseen_ns``: the two looks between which the hands went past the ball, where none was near.
    """

    address_ns: int
    takeaway_ns: int
    top_ns: int
    return_ns: int
    stops: bool = field(default=False, kw_only=True)
    unseen_ns: tuple[int, int] | None = field(default=None, kw_only=True)

    @property
    def until_ns(self) -> int | None:
        """Up to when it is looked at; None for as far as there are pictures."""
        return self.return_ns + _FOLLOWS_NS if self.stops else None


@dataclass(frozen=True, slots=True)
class StopSeen:
    """A club that came down at speed has stayed at the ball: into the ground, or held back."""

    strike: StrikeSeen


@dataclass(frozen=True, slots=True)
class ThroughSeen:
    """After a strike the club has gone through, past P8."""


@dataclass(frozen=True, slots=True)
class FinishSeen:
    """The hands have come to rest after a strike."""

    finish_ns: int


SwingEvent = StrikeSeen | StopSeen | ThroughSeen | FinishSeen


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

    def hands_expected_px(self, stamp_ns: int) -> FloatArray | None:
        """Where both hands will hold the club, (2,) px; None if they may not be holding it."""
        if self.phase is Phase.AWAY or not self.recent:
            return None
        seen = [HandsSeen(s.stamp_ns, s.hands_px) for s in self.recent[-2:]]
        return going_to_px(seen, stamp_ns)


def advance(
    state: SegmentState, sample: HandSample | None, look_ahead_ns: int = LOOK_AHEAD_NS
) -> tuple[SegmentState, SwingEvent | None]:
    """Take in the next frame's hands (None: nobody seen) and tell what was completed.

    ``look_ahead_ns``: how long past the hands' return a strike is looked at before it is told.
    """
    if sample is None:
        return state, None
    gap = _gap(state, sample)
    state = replace(state, recent=_remember(state.recent, sample))
    after = _after_gap(state, gap) if gap else None
    if after is not None:
        return after, _strike(after) if after.phase is Phase.THROUGH else None
    if state.phase is Phase.DOWN:
        return _down(state, sample, look_ahead_ns)
    return _STEPS[state.phase](state, sample)


def strike_so_far(state: SegmentState) -> StrikeSeen | None:
    """The full swing whose hands have turned at the top, as far as it has come; None if none has.

    Up there the hands may linger and rise once more: then it was not the top yet.
    """
    if state.phase is Phase.STOPPED:
        return replace(_strike(state), stops=True)
    if state.phase not in (Phase.BACK, Phase.DOWN) or state.top_rise < _FULL_RISE:
        return None
    latest_ns = state.recent[-1].stamp_ns
    if latest_ns <= state.top_ns:
        return None
    return StrikeSeen(state.address_ns, state.takeaway_ns, state.top_ns, latest_ns)


def strike_may_be_told(state: SegmentState, stamp_ns: int, look_ahead_ns: int) -> bool:
    """Whether a frame of this moment may be the one with which a strike is told."""
    return _is_back(state) and stamp_ns >= state.return_ns + look_ahead_ns


def strike_due_ns(state: SegmentState, stamps_ns: Sequence[int], look_ahead_ns: int) -> int | None:
    """From when on a frame had better tell a strike, if it is one; None while that is not known.

    ``stamps_ns``: of all frames from the hands' return on, looked at or not, up to the next that
    may be looked at.  If that is nearest to when the hands pass the ball it is to be looked at.  If
    one was that nobody looked at, a strike is looked at so long after it.
    """
    if not _is_back(state):
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


def _is_back(state: SegmentState) -> bool:
    return state.phase is Phase.DOWN and state.nearest <= _RETURNED


def _remember(recent: tuple[HandSample, ...], sample: HandSample) -> tuple[HandSample, ...]:
    """The newest look before it is kept however old it is: speed and stillness need two."""
    oldest = sample.stamp_ns - _MEMORY_NS
    kept = tuple(s for s in recent if s.stamp_ns >= oldest) or recent[-1:]
    return (*kept, sample)


def _away(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    if not (_at_the_ball(sample) and _is_still(state.recent, sample, _STILL_SPREAD)):
        return state, None
    return _addressed(state, sample), None


def _addressed(state: SegmentState, sample: HandSample) -> SegmentState:
    return SegmentState(
        phase=Phase.ADDRESS,
        recent=state.recent,
        anchor_px=_centre(state.recent, sample.stamp_ns - _STILL_NS),
        address_ns=sample.stamp_ns,
        takeaway_ns=sample.stamp_ns,
    )


def _address(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    if _at_the_ball(sample) and _is_still(state.recent, sample, _STILL_SPREAD):
        return replace(_addressed(state, sample), address_ns=state.address_ns), None
    moved = _moved(state, sample)
    if moved < _BACK_AT_THE_BALL / 2:
        return replace(state, takeaway_ns=sample.stamp_ns), None
    if moved < _LEFT_THE_BALL:
        return state, None
    return replace(state, phase=Phase.BACK, top_rise=_rise(state, sample)), None


def _back(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    rise = _rise(state, sample)
    if _at_the_ball(sample) and _is_still(state.recent, sample, _STILL_SPREAD):
        return _addressed(state, sample), None
    if sample.stamp_ns - state.takeaway_ns > _LONGEST_BACKSWING_NS:
        return replace(state, phase=Phase.AWAY), None
    if rise > state.top_rise:
        stamp_ns = sample.stamp_ns
        return replace(state, top_rise=rise, top_ns=stamp_ns, lingered_ns=stamp_ns), None
    if rise > state.top_rise - _LINGERING:
        return replace(state, lingered_ns=sample.stamp_ns), None
    if state.top_rise >= _FULL_RISE and rise < state.top_rise - _TURNED_DOWN:
        return replace(state, phase=Phase.DOWN, nearest=np.inf), None
    if state.top_rise < _FULL_RISE and _moved(state, sample) < _BACK_AT_THE_BALL:
        return replace(state, phase=Phase.ADDRESS, top_rise=0.0), None
    return state, None


def _down(
    state: SegmentState, sample: HandSample, look_ahead_ns: int
) -> tuple[SegmentState, SwingEvent | None]:
    if sample.stamp_ns - state.lingered_ns > _LONGEST_DOWNSWING_NS:
        return replace(state, phase=Phase.AWAY), None
    if _rise(state, sample) > state.top_rise:
        return replace(state, phase=Phase.BACK), None
    moved = _moved(state, sample)
    if moved < state.nearest:
        return replace(state, nearest=moved, return_ns=sample.stamp_ns), None
    if state.nearest > _RETURNED or sample.stamp_ns < state.return_ns + look_ahead_ns:
        return state, None
    if _peak_speed_per_s(state) < _SLOWEST_STRIKE_PER_S:
        return replace(state, phase=Phase.AWAY), None
    if moved < _GONE_THROUGH:
        return replace(state, phase=Phase.STOPPED), None
    return replace(state, phase=Phase.THROUGH), _strike(state)


def _gap(state: SegmentState, sample: HandSample) -> Gap | None:
    """The time that nobody looked before this frame, if a full swing may have come down in it."""
    if state.phase not in (Phase.BACK, Phase.DOWN) or state.top_rise < _FULL_RISE:
        return None
    assert state.anchor_px is not None
    gap = Gap(state.recent[-1], sample, state.anchor_px)
    return gap if gap.is_one else None


def _after_gap(state: SegmentState, gap: Gap) -> SegmentState | None:
    """What follows from where the hands are after it; None if looks enough are there without it.

    Through if they have plainly gone past the ball, down if they are just about to.
    """
    before, after = _moved(state, gap.before), _moved(state, gap.after)
    unseen = replace(state, unseen_ns=gap.span_ns)
    if _is_back(state):
        is_late = gap.after.stamp_ns - state.lingered_ns > _LONGEST_DOWNSWING_NS
        high = _FULL_RISE if is_late else state.top_rise
        return replace(unseen, phase=Phase.THROUGH) if _rise(state, gap.after) > high else None
    if min(before, after) <= _RETURNED:
        near = replace(unseen, phase=Phase.DOWN, nearest=after, return_ns=gap.after.stamp_ns)
        return near if state.phase is Phase.BACK else None
    passed = replace(unseen, nearest=gap.nearest, return_ns=gap.passed_ns)
    if gap.nearest <= _RETURNED:
        return replace(passed, phase=Phase.DOWN)
    up_again = state.phase is Phase.DOWN and _rise(state, gap.after) >= _FULL_RISE
    per_s = (before + after) / (gap.lasted_ns * 1e-9)
    at_speed = _SLOWEST_STRIKE_PER_S < per_s < _FASTEST_PER_S
    if at_speed and (gap.crossed or up_again):
        return replace(passed, phase=Phase.THROUGH)
    return None


def _stopped(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    if _moved(state, sample) >= _GONE_THROUGH:
        return replace(state, phase=Phase.AWAY), None
    if sample.stamp_ns < state.return_ns + _STAYED_NS:
        return state, None
    return replace(state, phase=Phase.AWAY), StopSeen(replace(_strike(state), stops=True))


def _strike(state: SegmentState) -> StrikeSeen:
    return StrikeSeen(
        state.address_ns,
        state.takeaway_ns,
        state.top_ns,
        state.return_ns,
        unseen_ns=state.unseen_ns,
    )


def _through(state: SegmentState, sample: HandSample) -> tuple[SegmentState, SwingEvent | None]:
    since = sample.stamp_ns - state.return_ns
    if since > _LONGEST_FINISH_NS:
        return replace(state, phase=Phase.AWAY), None
    if since >= LOOK_THROUGH_NS and not state.through_told:
        return replace(state, through_told=True), ThroughSeen()
    if since > 2 * _STILL_NS and _is_still(state.recent, sample, _FINISH_SPREAD):
        finished = FinishSeen(sample.stamp_ns - _STILL_NS)
        return replace(state, phase=Phase.AWAY), finished
    return state, None


_STEPS = {
    Phase.AWAY: _away,
    Phase.ADDRESS: _address,
    Phase.BACK: _back,
    Phase.STOPPED: _stopped,
    Phase.THROUGH: _through,
}


def _at_the_ball(sample: HandSample) -> bool:
    return sample.apart < _TOGETHER and sample.below_shoulders > _LOW


def _is_still(recent: tuple[HandSample, ...], sample: HandSample, spread: float) -> bool:
    since = sample.stamp_ns - _STILL_NS
    if recent[0].stamp_ns > since:
        return False
    seen = [s for s in recent if s.stamp_ns >= since]
    if sample.stamp_ns - seen[0].stamp_ns < _STILL_NS / 2:  # one look alone is always still
        seen.insert(0, recent[-len(seen) - 1])
    places = np.array([s.hands_px for s in seen])
    return bool(np.ptp(places, axis=0).max() < spread * sample.body_px)


def _centre(recent: tuple[HandSample, ...], since_ns: int) -> FloatArray:
    places = [s.hands_px for s in recent if s.stamp_ns >= since_ns]
    return np.asarray(np.mean(places, axis=0))


def _moved(state: SegmentState, sample: HandSample) -> float:
    assert state.anchor_px is not None
    return float(np.linalg.norm(sample.hands_px - state.anchor_px)) / sample.body_px


def _rise(state: SegmentState, sample: HandSample) -> float:
    assert state.anchor_px is not None
    return float(state.anchor_px[1] - sample.hands_px[1]) / sample.body_px


def _peak_speed_per_s(state: SegmentState) -> float:
    """The hands' highest speed over the last frames, body units a second."""
    places = np.array([s.hands_px for s in state.recent])
    times = np.array([s.stamp_ns for s in state.recent]) * 1e-9
    steps = np.linalg.norm(np.diff(places, axis=0), axis=1)
    return float((steps / np.diff(times)).max()) / state.recent[-1].body_px
