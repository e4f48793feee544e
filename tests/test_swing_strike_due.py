"""The swing that is still coming down: how far it has come, and when its strike is due."""

import pytest

from baycue.swing.events import StrikeSeen, SwingEvent
from baycue.swing.hands import HandSample
from baycue.swing.segment import LOOK_AHEAD_NS, advance
from baycue.swing.segment_state import SegmentState
from baycue.swing.strike_due import passed_ns, strike_due_ns, strike_may_be_told, strike_so_far
from tests.streamed_hands import RATES, START_NS, streamed, swing_track, true_return_s


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
        due_ns = strike_due_ns(state, LOOK_AHEAD_NS)
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
    assert sparse[-1] == pytest.approx(dense, abs=3_000_000)


def test_half_a_swing_is_no_swing_so_far() -> None:
    half = streamed(lambda t: swing_track(min(t, -0.55)), 60, -2.0, 1.0)
    assert not any(strike_so_far(state) for state, _ in states_of(half))


@pytest.mark.parametrize(
    ("fps", "every"), [(30, 1), (60, 1), (120, 1), (60, 2), (120, 2), (120, 3)]
)
def test_when_the_hands_passed_is_told_alike_by_every_frame_and_by_some(
    fps: int, every: int
) -> None:
    truly_ns = START_NS + true_return_s() * 1e9
    for phase in (0.0, 0.2, 0.4, 0.6, 0.8):
        samples = streamed(swing_track, fps, -2.0, 1.0, phase)[::every]
        told = next(s for s, event in states_of(samples) if isinstance(event, StrikeSeen))
        assert passed_ns(told) == pytest.approx(truly_ns, abs=2_500_000)
