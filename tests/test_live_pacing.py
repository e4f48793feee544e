"""The pose model is free when the frame comes that tells a strike."""

from dataclasses import dataclass
from itertools import count

import pytest

from baycue.live.pacing import Pacing
from baycue.swing.events import StrikeSeen
from baycue.swing.full_swing import is_back
from baycue.swing.hands import HandSample
from baycue.swing.segment import LOOK_AHEAD_NS, advance
from baycue.swing.segment_state import SegmentState
from baycue.swing.strike_due import CARRIED_NS, passed_ns
from tests.streamed_hands import streamed, swing_track

MS = 1_000_000


def test_the_usual_time_a_pose_takes_grows_sooner_than_it_falls() -> None:
    pacing = Pacing().posed(20 * MS)
    assert pacing.pose_ns == 20 * MS
    longer = pacing.posed(40 * MS)
    assert longer.pose_ns == 30 * MS
    assert 25 * MS < longer.posed(20 * MS).pose_ns < 30 * MS


def test_the_gap_between_frames_is_told_with_frames_missing_too() -> None:
    assert Pacing().seen(4, 100 * MS).seen(7, 150 * MS).gap_ns == pytest.approx(50 * MS / 3)


@dataclass(frozen=True)
class Told:
    """The strike told, when, and with pictures until when."""

    strike: StrikeSeen
    at_ns: int
    pictured_ns: int


def told_live(samples: list[HandSample], pose_ns: int, sparing: bool) -> Told:
    """Frames that come as time goes by, and a pose model that takes ``pose_ns`` over each."""
    state, pacing, now_ns, last = SegmentState(), Pacing(), samples[0].stamp_ns, -1
    for _ in count():
        newest = sum(s.stamp_ns <= now_ns for s in samples) - 1
        if newest == last:
            now_ns = samples[last + 1].stamp_ns
            continue
        last, sample = newest, samples[newest]
        pacing = pacing.seen(newest, sample.stamp_ns)
        if sparing and pacing.is_spared(state, LOOK_AHEAD_NS, now_ns):
            continue
        now_ns += pose_ns
        pacing = pacing.posed(pose_ns)
        usable_ns = min(now_ns, sample.stamp_ns + CARRIED_NS)
        pictured_ns = max(s.stamp_ns for s in samples if s.stamp_ns <= usable_ns)
        state, event = advance(state, sample, LOOK_AHEAD_NS, pictured_ns)
        if isinstance(event, StrikeSeen):
            return Told(event, now_ns, pictured_ns)
    raise AssertionError("no strike was told")


PHASES = [k / 10 for k in range(10)]


def late_ns(fps: int, pose_ms: int, sparing: bool) -> list[int]:
    """How long after its last picture each strike is told, in order of length."""
    ways = [streamed(swing_track, fps, -2.0, 1.0, phase) for phase in PHASES]
    last_ns = [told_live(samples, 0, sparing=False).pictured_ns for samples in ways]
    return sorted(
        told_live(samples, pose_ms * MS, sparing).at_ns - at_ns
        for samples, at_ns in zip(ways, last_ns, strict=True)
    )


@pytest.mark.parametrize("pose_ms", [22, 28, 36])
@pytest.mark.parametrize("fps", [60, 120])
def test_a_strike_is_told_hardly_later_than_its_last_picture(fps: int, pose_ms: int) -> None:
    """The pose of the frame a 60th of a second before is ready then, or 6 ms later."""
    late = late_ns(fps, pose_ms, sparing=True)
    assert late[len(late) // 2] <= pose_ms * MS - 1e9 / 60 + 6 * MS


@pytest.mark.parametrize(("fps", "sooner_ms"), [(60, 7), (120, 2)])
def test_it_is_told_sooner_than_if_the_model_took_every_frame_it_could(
    fps: int, sooner_ms: int
) -> None:
    """In the mean; now and then the model is free at the right time by luck."""
    spared, busy = (
        [late for pose_ms in range(20, 38, 2) for late in late_ns(fps, pose_ms, sparing)]
        for sparing in (True, False)
    )
    assert sum(spared) < sum(busy) - sooner_ms * len(busy) * MS


@pytest.mark.parametrize("fps", [60, 120])
def test_as_many_pictures_past_the_ball_are_there_as_if_every_frame_were_posed(fps: int) -> None:
    for phase in PHASES:
        samples = streamed(swing_track, fps, -2.0, 1.0, phase)
        every = told_live(samples, 0, sparing=False)
        live = told_live(samples, 28 * MS, sparing=True)
        assert live.pictured_ns >= every.pictured_ns


def test_at_30_frames_a_second_nothing_is_spared() -> None:
    for phase in PHASES:
        samples = streamed(swing_track, 30, -2.0, 1.0, phase)
        live = told_live(samples, 28 * MS, sparing=True)
        assert live == told_live(samples, 28 * MS, sparing=False)
        assert live.pictured_ns == live.at_ns - 28 * MS, "the picture told with was posed"


def test_old_pictures_are_all_looked_at() -> None:
    """A recording played from long ago: when its next picture comes is not known."""
    samples = streamed(swing_track, 60, -2.0, 1.0)
    state, pacing = SegmentState(), Pacing(pose_ns=25e6)
    for k, sample in enumerate(samples):
        pacing = pacing.seen(k, sample.stamp_ns)
        assert not pacing.is_spared(state, LOOK_AHEAD_NS, sample.stamp_ns + 60_000 * MS)
        state, _ = advance(state, sample)


def coming_down(fps: int, since_ns: int) -> tuple[SegmentState, int]:
    """The state once the hands have passed the ball by so much, and when they did."""
    state = SegmentState()
    for sample in streamed(swing_track, fps, -2.0, 1.0):
        state, event = advance(state, sample, look_ahead_ns=10 * LOOK_AHEAD_NS)
        assert event is None
        if is_back(state) and sample.stamp_ns >= passed_ns(state) + since_ns:
            return state, passed_ns(state)
    raise AssertionError("the hands never passed the ball")


def test_all_have_come_when_the_next_picture_is_the_last() -> None:
    """At 60 frames a second the last one comes while the one before it is being posed."""
    state, passed = coming_down(60, 0)
    pacing = Pacing(gap_ns=16e6)
    last_ns = passed + LOOK_AHEAD_NS
    before_ns = last_ns - 16 * MS
    assert pacing.ends(state, before_ns, before_ns, LOOK_AHEAD_NS)
    assert not pacing.ends(state, before_ns - 16 * MS, before_ns - 16 * MS, LOOK_AHEAD_NS)
    assert not pacing.ends(state, None, before_ns, LOOK_AHEAD_NS), "nothing is being posed"


def test_at_30_frames_a_second_all_have_come_with_the_last() -> None:
    state, passed = coming_down(30, 0)
    pacing = Pacing(gap_ns=33e6)
    last_ns = passed + LOOK_AHEAD_NS
    assert pacing.ends(state, last_ns, last_ns, LOOK_AHEAD_NS)
    assert not pacing.ends(state, last_ns - 33 * MS, last_ns - 33 * MS, LOOK_AHEAD_NS)
