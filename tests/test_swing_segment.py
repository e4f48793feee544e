"""Swings found in streams of hands; what is no swing is not found.

All tracks are made up here: hands in body units about the shoulders' middle, x to the right
of the picture and y down, over seconds.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache, partial

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize_scalar

from baycue.swing.hands import HandSample
from baycue.swing.segment import (
    LOOK_AHEAD_NS,
    FinishSeen,
    SegmentState,
    StopSeen,
    StrikeSeen,
    SwingEvent,
    ThroughSeen,
    advance,
    strike_due_ns,
    strike_may_be_told,
    strike_so_far,
)
from tests.canned_swing import BACKSWING_S, canned_swing, minimum_jerk
from tests.stick_golfer import FloatArray, frame_times_s

BODY_PX = 330.0
ARM_BODIES = 0.44
SHOULDERS_PX = np.array([640.0, 240.0])
RATES = [30, 60, 120]
START_NS = 5_000_000_000
_BALL = np.array([-0.09, 0.44])

Track = Callable[[float], FloatArray]
"""Where the hands are, (2,) body units from the shoulders, at a time in seconds."""


def on_the_arms_circle(arm_deg: float, trail_sign: int = 1) -> FloatArray:
    """The hands of an arm at that angle, about the lead shoulder."""
    angle = np.radians(arm_deg)
    return np.array([trail_sign * (0.05 + ARM_BODIES * np.sin(angle)), ARM_BODIES * np.cos(angle)])


def swing_track(time_s: float, pace: float = 1.0, trail_sign: int = 1) -> FloatArray:
    """The canned swing, its top at 0."""
    return on_the_arms_circle(float(canned_swing().arm_deg(time_s * pace)), trail_sign)


def streamed(
    track: Track,
    fps: float,
    from_s: float,
    to_s: float,
    phase: float = 0.0,
    apart: float = 0.06,
    jitter: float = 0.0,
) -> list[HandSample]:
    rng = np.random.default_rng(11)
    return [
        HandSample(
            START_NS + round(float(t) * 1e9),
            SHOULDERS_PX + BODY_PX * (where := track(float(t)) + rng.normal(0, jitter, 2)),
            BODY_PX,
            apart,
            float(where[1]),
        )
        for t in frame_times_s(fps, from_s, to_s, phase)
    ]


@dataclass(frozen=True, slots=True)
class Told:
    """An event and the stamp of the frame that brought it."""

    event: SwingEvent
    stamp_ns: int


def told_by(stream: Sequence[HandSample | None]) -> list[Told]:
    state, told, stamp_ns = SegmentState(), [], 0
    for sample in stream:
        stamp_ns = sample.stamp_ns if sample else stamp_ns
        state, event = advance(state, sample)
        if event:
            told.append(Told(event, stamp_ns))
    return told


def kinds(told: Sequence[Told]) -> list[type[SwingEvent]]:
    return [type(t.event) for t in told]


def strike_of(told: Sequence[Told]) -> StrikeSeen:
    (strike,) = (t.event for t in told if isinstance(t.event, StrikeSeen))
    return strike


@lru_cache(maxsize=8)
def true_return_s(pace: float = 1.0) -> float:
    """When, coming down, the hands are nearest to where they were at address."""
    home = swing_track(-2.0)

    def gone(time_s: float) -> float:
        return float(np.linalg.norm(swing_track(time_s, pace) - home))

    return float(minimize_scalar(gone, bounds=(0.05, 0.45 / pace), method="bounded").x)


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
    late_ns = told[0].stamp_ns - strike.return_ns
    assert late_ns + 2 >= LOOK_AHEAD_NS
    assert late_ns <= 100_000_001
    assert LOOK_AHEAD_NS <= 100_000_000
    truly_ns = START_NS + true_return_s() * 1e9
    assert strike.return_ns == pytest.approx(truly_ns, abs=0.51e9 / fps + 2e6)


@pytest.mark.parametrize("pace", [0.75, 1.3])
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
def test_landmark_jitter_neither_makes_nor_hides_a_swing(fps: float) -> None:
    told = told_by(streamed(swing_track, fps, -2.5, 2.5, jitter=0.004))
    assert kinds(told) == [StrikeSeen, ThroughSeen, FinishSeen]


def at_rest(_time_s: float) -> FloatArray:
    return _BALL


def waggles(time_s: float) -> FloatArray:
    """Three waggles a second, a hand's breadth, with a lift."""
    sway = 0.10 * np.sin(2 * np.pi * 1.5 * time_s)
    return np.asarray(_BALL + np.array([sway, -abs(sway) / 2]))


def walking_by(time_s: float) -> FloatArray:
    """Hands swing low beside a body that crosses the picture at 1.4 m/s."""
    return np.array([-3 + 1.1 * time_s, 0.42 - 0.08 * abs(np.sin(2 * np.pi * time_s))])


def bending_to_tee(time_s: float) -> FloatArray:
    """Down to the ground and up again, a second each way."""
    down = minimum_jerk(np.array(time_s)) - minimum_jerk(np.array(time_s - 2.0))
    return np.asarray(_BALL + np.array([0.1 * down, 0.4 * down]))


def stretching_overhead(time_s: float) -> FloatArray:
    """Hands together overhead, held, and down again slowly."""
    up = minimum_jerk(np.array(time_s / 1.2)) - minimum_jerk(np.array((time_s - 2.5) / 1.2))
    return np.asarray(_BALL + np.array([0.0, -0.95 * up]))


def stopped_half_way(time_s: float) -> FloatArray:
    """To the top, held for a second, then let down at leisure."""
    if time_s < 0:
        return swing_track(time_s)
    let_down = minimum_jerk(np.array((time_s - 1.0) / 1.5))
    return np.asarray(swing_track(0.0) + (swing_track(-2.0) - swing_track(0.0)) * let_down)


def stopped_coming_down(time_s: float) -> FloatArray:
    """Down at full pace for a while, then held short of the ball."""
    return swing_track(min(time_s, 0.2))


def to_waist_and_back(time_s: float) -> FloatArray:
    """A half backswing, to where the arm is parallel at the most, and back to the ball."""
    there = minimum_jerk(np.array(time_s / 0.7)) - minimum_jerk(np.array((time_s - 0.7) / 0.5))
    return on_the_arms_circle(float(-12 - 50 * there))


def short_chip(time_s: float) -> FloatArray:
    """Hands to knee height and briskly through: no full swing."""
    angles = np.interp(time_s, [0, 0.45, 0.5, 0.75, 0.9], [-12, -55, -55, 20, 25])
    return on_the_arms_circle(float(angles))


def even_paced_rehearsal(time_s: float) -> FloatArray:
    """Arm just past parallel and down through the ball at an even, gentle pace."""
    angles = np.interp(time_s, [0, 0.9, 1.31, 1.6], [-12, -95, -12, 46])
    return on_the_arms_circle(float(angles))


def pulled_up_at_the_ball(time_s: float) -> FloatArray:
    """Down at full pace and held where the ball lies."""
    return swing_track(min(time_s, true_return_s()))


def slow_rehearsal(time_s: float) -> FloatArray:
    """A whole swing at a third of its pace."""
    return swing_track(time_s, pace=1 / 3)


NO_SWINGS: dict[str, Track] = {
    "standing still": at_rest,
    "waggles": waggles,
    "walking by": walking_by,
    "bending to tee": bending_to_tee,
    "overhead stretch": stretching_overhead,
    "practice stop at the top": stopped_half_way,
    "stop on the way down": stopped_coming_down,
    "stop at the ball": pulled_up_at_the_ball,
    "short chip": short_chip,
    "even-paced rehearsal": even_paced_rehearsal,
    "half backswing and back": to_waist_and_back,
    "slow rehearsal": slow_rehearsal,
}


@pytest.mark.parametrize("fps", RATES)
@pytest.mark.parametrize("name", NO_SWINGS)
def test_what_is_no_swing_is_not_told(name: str, fps: float) -> None:
    track = NO_SWINGS[name]

    def settled_first(time_s: float) -> FloatArray:
        return _BALL if time_s < -4.0 else track(time_s)

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


def states_of(samples: list[HandSample]) -> list[tuple[SegmentState, SwingEvent | None]]:
    """The state after each sample, and what it completed."""
    state, found = SegmentState(), list[tuple[SegmentState, SwingEvent | None]]()
    for sample in samples:
        state, event = advance(state, sample)
        found.append((state, event))
    return found


@pytest.mark.parametrize("fps", RATES)
def test_from_just_after_the_top_the_swing_so_far_is_known(fps: float) -> None:
    """Also before the hands have come down, so that there is time to look at it."""
    top_ns, known = START_NS, list[StrikeSeen]()
    for state, event in states_of(streamed(swing_track, fps, -2.0, 0.6)):
        so_far = strike_so_far(state)
        if so_far is not None:
            known.append(so_far)
            assert state.recent[-1].stamp_ns > so_far.top_ns
        if isinstance(event, StrikeSeen):
            strike = event
    first_ns = next(k.return_ns for k in known if k.top_ns == strike.top_ns)
    assert abs(strike.top_ns - top_ns) < 60_000_000
    assert first_ns - strike.top_ns < 1.5e9 / fps


@pytest.mark.parametrize("fps", RATES)
def test_the_frame_that_tells_a_strike_was_one_that_might(fps: float) -> None:
    before, told = SegmentState(), 0
    for sample, (state, event) in zip(
        streamed(swing_track, fps, -2.0, 0.6),
        states_of(streamed(swing_track, fps, -2.0, 0.6)),
        strict=True,
    ):
        if isinstance(event, StrikeSeen):
            assert strike_may_be_told(before, sample.stamp_ns, LOOK_AHEAD_NS)
            told += 1
        before = state
    assert told == 1


def dues_of(samples: list[HandSample], every: int) -> list[tuple[int, int | None, bool]]:
    """Each frame's stamp, when a strike is due as seen then, and whether it told one."""
    found, state = [], SegmentState()
    for k, sample in enumerate(samples):
        stamps_ns = [s.stamp_ns for s in samples[: k + 1] if s.stamp_ns >= state.return_ns]
        due_ns = strike_due_ns(state, stamps_ns, LOOK_AHEAD_NS)
        event = None
        if k % every == 0:
            state, event = advance(state, sample)
        found.append((sample.stamp_ns, due_ns, isinstance(event, StrikeSeen)))
    return found


@pytest.mark.parametrize("phase", [0.0, 0.3, 0.6, 0.9])
@pytest.mark.parametrize("fps", RATES)
def test_a_strike_is_told_by_the_first_frame_after_it_is_due(fps: int, phase: float) -> None:
    told = 0
    for stamp_ns, due_ns, tells in dues_of(streamed(swing_track, fps, -2.0, 1.0, phase), every=1):
        if tells:
            assert due_ns is not None
        if due_ns is not None:
            assert tells == (stamp_ns >= due_ns)
        told += tells
        if told:
            break
    assert told == 1


@pytest.mark.parametrize("phase", [0.0, 0.3, 0.6, 0.9])
@pytest.mark.parametrize(("fps", "every"), [(60, 2), (120, 2), (120, 3)])
def test_it_is_due_about_as_if_all_had_been_looked_at(fps: int, every: int, phase: float) -> None:
    samples = streamed(swing_track, fps, -2.0, 1.0, phase)
    dense = next(due for _, due, tells in dues_of(samples, every=1) if tells)
    sparse = [due for at, due, _ in dues_of(samples, every) if due and dense and at < dense]
    assert sparse
    assert sparse[-1] == pytest.approx(dense, abs=17_000_000)


def test_half_a_swing_is_no_swing_so_far() -> None:
    half = streamed(lambda t: swing_track(min(t, -0.55)), 60, -2.0, 1.0)
    assert not any(strike_so_far(state) for state, _ in states_of(half))
