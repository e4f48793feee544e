"""Swings found in streams of hands; what is no swing is not found."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.swing.events import FinishSeen, StopSeen, StrikeSeen, ThroughSeen
from baycue.swing.hands import HandSample
from baycue.swing.segment import LOOK_AHEAD_NS, advance
from baycue.swing.segment_state import SegmentState
from baycue.swing.strike_due import CARRIED_NS
from tests.canned_swing import BACKSWING_S, minimum_jerk
from tests.no_swings import (
    BALL,
    NO_SWINGS,
    at_rest,
    pulled_up_at_the_ball,
)
from tests.stick_golfer import FloatArray
from tests.streamed_hands import (
    RATES,
    START_NS,
    Told,
    kinds,
    streamed,
    strike_of,
    swing_track,
    told_by,
    true_return_s,
)

ROUGHLY_NS = 4_000_000
"""So nearly do the looks tell when the hands passed the ball."""


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("trail_sign", [1, -1], ids=["trail right", "trail left"])
@pytest.mark.parametrize("phase", [0.0, 0.5])
def test_a_swing_is_one_strike_and_then_one_finish(
    fps: float, trail_sign: int, phase: float
) -> None:
    track = partial(swing_track, trail_sign=trail_sign)
    told = told_by(streamed(track, fps, -2.0, 2.5, phase))
    assert kinds(told) == [StrikeSeen, ThroughSeen, FinishSeen]
    strike, finish = told[0].event, told[2].event
    assert isinstance(strike, StrikeSeen)
    assert isinstance(finish, FinishSeen)
    frame_ns = 1e9 / fps
    assert strike.address_ns < strike.takeaway_ns < strike.top_ns < strike.return_ns
    assert strike.return_ns < finish.finish_ns <= told[2].stamp_ns
    assert strike.top_ns == pytest.approx(START_NS, abs=2 * frame_ns)
    assert strike.takeaway_ns == pytest.approx(START_NS - BACKSWING_S * 1e9, abs=2e8)


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("phase", [0.0, 0.25, 0.5, 0.75])
def test_a_strike_is_told_within_a_tenth_of_a_second_of_the_hands_return(
    fps: float, phase: float
) -> None:
    told = told_by(streamed(swing_track, fps, -2.0, 0.6, phase))
    strike = strike_of(told)
    truly_ns = START_NS + true_return_s() * 1e9
    late_ns = told[0].stamp_ns - truly_ns
    assert late_ns >= LOOK_AHEAD_NS - ROUGHLY_NS
    assert late_ns <= 100_000_001
    assert LOOK_AHEAD_NS <= 100_000_000
    assert strike.return_ns == pytest.approx(truly_ns, abs=0.51e9 / fps + 2e6)


@pytest.mark.parametrize("pace", [0.45, 0.75, 1.3])
@pytest.mark.parametrize("fps", RATES)
def test_slower_and_faster_swings_are_swings(fps: float, pace: float) -> None:
    told = told_by(streamed(partial(swing_track, pace=pace), fps, -2.5, 3.0))
    assert kinds(told) == [StrikeSeen, ThroughSeen, FinishSeen]


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("pause_s", [0.1, 0.25])
def test_a_short_pause_at_the_top_is_still_a_swing(fps: float, pause_s: float) -> None:
    def paused(time_s: float) -> FloatArray:
        return swing_track(max(time_s - pause_s, 0.0) if time_s > 0 else time_s)

    assert kinds(told_by(streamed(paused, fps, -2.0, 3.0))) == [StrikeSeen, ThroughSeen, FinishSeen]


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("sunk", [0.02, 0.04])
def test_in_a_long_pause_the_hands_may_sink_a_little(fps: float, sunk: float) -> None:
    """Two of 500 drawn swings sank by 0.03 of the body for half a second and were lost."""

    def paused(time_s: float) -> FloatArray:
        low = np.array([0.0, sunk * min(max(time_s, 0.0) / 0.05, 1.0)])
        return np.asarray(swing_track(max(time_s - 0.45, 0.0) if time_s > 0 else time_s) + low)

    assert kinds(told_by(streamed(paused, fps, -2.0, 3.0))) == [StrikeSeen, ThroughSeen, FinishSeen]


@pytest.mark.parametrize("fps", RATES)
def test_landmark_jitter_neither_makes_nor_hides_a_swing(fps: float) -> None:
    told = told_by(streamed(swing_track, fps, -2.5, 2.5, jitter=0.004))
    assert kinds(told) == [StrikeSeen, ThroughSeen, FinishSeen]


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("name", NO_SWINGS)
def test_what_is_no_swing_is_not_told(name: str, fps: float) -> None:
    track = NO_SWINGS[name]

    def settled_first(time_s: float) -> FloatArray:
        return BALL if time_s < -4.0 else track(time_s)

    told = kinds(told_by(streamed(settled_first, fps, -5.0, 5.0)))
    assert told == ([StopSeen] if name == "stop at the ball" else [])


@pytest.mark.parametrize("fps", RATES)
def test_a_club_that_stays_at_the_ball_is_told_a_quarter_of_a_second_later(fps: float) -> None:
    (told,) = told_by(streamed(pulled_up_at_the_ball, fps, -2.0, 2.0))
    assert isinstance(told.event, StopSeen)
    strike = told.event.strike
    assert strike.stops
    frame_ns = 1e9 / fps
    home_ns = START_NS + true_return_s() * 1e9
    assert abs(strike.return_ns - home_ns) < 1.5 * frame_ns
    assert 0 <= told.stamp_ns - strike.return_ns - 250e6 < 2 * frame_ns
    assert strike.until_ns == strike.return_ns + 60_000_000


def test_a_swing_that_goes_through_is_looked_at_as_far_as_it_is_seen() -> None:
    strike = strike_of(told_by(streamed(swing_track, 60, -2.0, 2.0)))
    assert (strike.stops, strike.until_ns) == (False, None)


def told_with(stream: Sequence[HandSample], pictured_ns: int) -> tuple[int, int] | None:
    """Stamp and number of the look that tells a strike, each with pictures so much further."""
    state = SegmentState()
    for k, sample in enumerate(stream):
        until_ns = sample.stamp_ns + pictured_ns
        state, event = advance(state, sample, LOOK_AHEAD_NS, until_ns)
        if isinstance(event, StrikeSeen):
            return sample.stamp_ns, k
    return None


@pytest.mark.parametrize("phase", [0.0, 0.25, 0.5, 0.75])
def test_a_picture_just_after_the_last_look_counts(phase: float) -> None:
    """At 60 frames a second the look before tells the strike, once the picture after has come."""
    stream = streamed(swing_track, 60, -2.0, 2.0, phase)
    alone, with_the_next = told_with(stream, 0), told_with(stream, 16_666_667)
    assert alone is not None
    assert with_the_next is not None
    assert with_the_next[1] == alone[1] - 1


def test_one_that_comes_much_later_does_not() -> None:
    """The hands cannot be carried on so far."""
    stream = streamed(swing_track, 60, -2.0, 2.0)
    assert told_with(stream, 200_000_000) == told_with(stream, CARRIED_NS)


@pytest.mark.parametrize("name", NO_SWINGS)
def test_with_pictures_after_each_look_too_what_is_no_swing_is_not_told(name: str) -> None:
    assert told_with(streamed(NO_SWINGS[name], 60, -4.0, 4.0), 16_666_667) is None


STOPS = {"stop at the ball", "stop on the way down", "practice stop at the top"}
"""After these the golfer would need to come back to the ball, which the tracks do not tell."""


def after_a_while(time_s: float, name: str) -> FloatArray:
    """Something that is no swing, then a pause at the ball, then a swing with its top at 0."""
    back_at_the_ball_s = -2.2
    if time_s > back_at_the_ball_s:
        return swing_track(time_s)
    return NO_SWINGS[name](time_s + 7.5)


@pytest.mark.parametrize("name", sorted(set(NO_SWINGS) - {"slow rehearsal", *STOPS}))
def test_a_swing_after_something_else_is_still_found(name: str) -> None:
    told = told_by(streamed(partial(after_a_while, name=name), 60, -9.0, 2.0))
    assert kinds(told) == [StrikeSeen, ThroughSeen, FinishSeen]


def test_hands_apart_are_not_on_a_club() -> None:
    assert told_by(streamed(swing_track, 60, -2.0, 2.0, apart=0.6)) == []


def test_nobody_there_is_no_event() -> None:
    assert told_by([None] * 300) == []


def twice(time_s: float) -> FloatArray:
    """Two swings eight seconds apart; between them the hands come back to the ball."""
    if time_s > 5:
        return swing_track(time_s - 8.0)
    rest = swing_track(3.0)
    back = minimum_jerk(np.array((time_s - 2.5) / 1.5))
    home = swing_track(-2.0)
    return swing_track(time_s) if time_s < 2.5 else np.asarray(rest + (home - rest) * back)


@pytest.mark.parametrize("fps", RATES)
def test_two_swings_are_two(fps: float) -> None:
    told = told_by(streamed(twice, fps, -2.0, 10.5))
    assert kinds(told) == [StrikeSeen, ThroughSeen, FinishSeen] * 2
    assert told[3].event.top_ns - told[0].event.top_ns == pytest.approx(8e9, abs=5e7)  # type: ignore[union-attr]


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("seed", range(6))
def test_a_frame_in_ten_may_be_dropped_and_one_in_ten_be_empty(fps: float, seed: int) -> None:
    rng = np.random.default_rng(seed)
    stream: list[HandSample | None] = []
    for sample in streamed(swing_track, fps, -2.5, 3.0):
        fate = rng.uniform()
        if fate < 0.1:
            continue
        stream.append(None if fate < 0.2 else sample)
    assert kinds(told_by(stream)) == [StrikeSeen, ThroughSeen, FinishSeen]


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("start_s", [-1.6, -0.6, -0.1, 0.05, 0.5])
def test_an_eighth_of_a_second_unseen_is_no_matter(fps: float, start_s: float) -> None:
    stream = [
        None if start_s <= (s.stamp_ns - START_NS) * 1e-9 < start_s + 0.125 else s
        for s in streamed(swing_track, fps, -2.0, 3.0)
    ]
    assert kinds(told_by(stream)) == [StrikeSeen, ThroughSeen, FinishSeen]


def test_a_golfer_who_leaves_at_the_top_does_not_strike_when_someone_comes() -> None:
    stream = streamed(swing_track, 60, -2.0, 0.0)
    later = [
        replace(s, stamp_ns=s.stamp_ns + 8_000_000_000) for s in streamed(at_rest, 60, 0.0, 2.0)
    ]
    assert told_by([*stream, *later]) == []


@settings(max_examples=15, deadline=None)
@given(st.integers(0, 2**45))
def test_a_later_clock_changes_nothing_but_the_stamps(later_ns: int) -> None:
    stream = streamed(swing_track, 30, -1.5, 2.0)
    there = told_by([replace(s, stamp_ns=s.stamp_ns + later_ns) for s in stream])
    assert there == [_later(t, later_ns) for t in told_by(stream)]
    assert len(there) == 3


def _later(told: Told, by_ns: int) -> Told:
    if isinstance(told.event, FinishSeen):
        return Told(FinishSeen(told.event.finish_ns + by_ns), told.stamp_ns + by_ns)
    if isinstance(told.event, ThroughSeen):
        return Told(told.event, told.stamp_ns + by_ns)
    assert isinstance(told.event, StrikeSeen)
    e = told.event
    times = (e.address_ns, e.takeaway_ns, e.top_ns, e.return_ns)
    return Told(StrikeSeen(*(t + by_ns for t in times)), told.stamp_ns + by_ns)


@settings(max_examples=15, deadline=None)
@given(st.floats(0.2, 6), st.floats(-2000, 2000), st.floats(-2000, 2000), st.booleans())
def test_size_place_and_mirroring_of_the_picture_change_nothing(
    scale: float, x: float, y: float, mirror: bool
) -> None:
    stream = streamed(swing_track, 30, -1.5, 2.0)
    scales = np.array([-scale if mirror else scale, scale])
    seen = [
        replace(s, hands_px=scales * s.hands_px + [x, y], body_px=scale * s.body_px) for s in stream
    ]
    assert told_by(seen) == told_by(stream)
