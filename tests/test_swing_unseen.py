"""Swings of which pictures were lost, about the ball above all: none goes by in silence."""

import numpy as np
import pytest

from baycue.spine import SwingNews, UnscorableSwing, swing_news
from baycue.swing.events import StopSeen, StrikeSeen
from baycue.swing.hands import HandSample
from baycue.swing.unseen import Gap, share_of_way
from tests.lost_frames import plan, seen
from tests.no_swings import NO_SWINGS
from tests.streamed_hands import (
    START_NS,
    Told,
    Track,
    kinds,
    streamed,
    swing_track,
    told_by,
    true_return_s,
)

FPS = 30
FRAME_NS = 1_000_000_000 // FPS


def with_gap(track: Track, first_s: float, lasts_s: float, fps: float = FPS) -> list[Told]:
    """What is told of a track of which nothing is looked at for a while."""
    lost_ns = START_NS + first_s * 1e9, START_NS + (first_s + lasts_s) * 1e9
    samples = streamed(track, fps, -5.0, 3.0)
    return told_by([s for s in samples if not lost_ns[0] <= s.stamp_ns < lost_ns[1]])


def settled_first(track: Track) -> Track:
    return lambda time_s: swing_track(-4.0) if time_s < -4.0 else track(time_s)


@pytest.mark.parametrize("fps", [30, 60])
@pytest.mark.parametrize("lasts_s", [0.04, 0.07, 0.1, 0.14, 0.2, 0.3])
def test_a_swing_is_told_wherever_pictures_are_missing(lasts_s: float, fps: float) -> None:
    for first_s in np.arange(-0.2, 0.7, 0.031):
        told = with_gap(swing_track, float(first_s), lasts_s, fps)
        assert kinds(told)[:1] == [StrikeSeen], f"from {first_s:.3f} s on"
        assert sum(isinstance(t.event, StrikeSeen) for t in told) == 1


@pytest.mark.parametrize("lasts_s", [0.07, 0.1, 0.14, 0.2, 0.3])
def test_if_the_ball_was_passed_unseen_it_says_when(lasts_s: float) -> None:
    home_ns = START_NS + true_return_s() * 1e9
    for share in (0.3, 0.5, 0.7):
        told = with_gap(swing_track, true_return_s() - share * lasts_s, lasts_s)
        (strike,) = (t.event for t in told if isinstance(t.event, StrikeSeen))
        if strike.unseen_ns is not None:
            since_ns, until_ns = strike.unseen_ns
            assert since_ns <= strike.return_ns <= until_ns
            assert since_ns < home_ns < until_ns


def test_two_pictures_at_the_ball_are_enough_to_lose_it_from_sight() -> None:
    """What a two-hour practice on a busy machine brought about: no look was near the ball."""
    places = (true_return_s() - k * 0.008 for k in range(9))
    found = [with_gap(swing_track, first_s, 0.066) for first_s in places]
    strikes = [t.event for told in found for t in told if isinstance(t.event, StrikeSeen)]
    assert len(strikes) == len(found)
    assert any(strike.unseen_ns for strike in strikes)


@pytest.mark.parametrize("lasts_s", [0.07, 0.14, 0.3, 0.6])
@pytest.mark.parametrize("name", NO_SWINGS)
def test_what_is_no_swing_is_none_with_pictures_missing(name: str, lasts_s: float) -> None:
    for first_s in np.arange(-1.0, 2.0, 0.21):
        told = kinds(with_gap(settled_first(NO_SWINGS[name]), float(first_s), lasts_s))
        assert set(told) <= {StopSeen}, f"from {first_s:.2f} s on"


def test_a_look_long_after_the_ball_ends_nothing() -> None:
    """A speed was asked of the one look that was left, which ended the session."""
    for from_s in true_return_s() + np.arange(-0.036, 0.0, 0.008):
        low = with_gap(lambda time_s: swing_track(min(time_s, 0.42)), float(from_s), 0.4, 60)
        assert sum(isinstance(t.event, StrikeSeen) for t in low) <= 1


def test_one_look_after_a_gap_is_not_hands_that_are_still() -> None:
    """Else the golfer was taken to stand to the ball half way up, and the swing was lost."""
    for first_s in np.arange(-0.75, -0.2, 0.03):
        told = with_gap(swing_track, float(first_s), 0.21)
        assert kinds(told)[:1] == [StrikeSeen], f"from {first_s:.2f} s on"


def hands(at_ns: int, x_px: float, y_px: float) -> HandSample:
    return HandSample(at_ns, np.array([x_px, y_px]), 300.0, 0.05, 0.4)


@pytest.mark.parametrize(
    ("frames", "fps", "is_one"), [(3, 60, True), (6, 120, True), (1, 24, False)]
)
def test_three_frames_at_60_a_second_are_a_gap_and_one_of_a_slow_camera_is_not(
    frames: int, fps: float, is_one: bool
) -> None:
    """Where a pose takes 40 ms two of three frames are left out, and hands pass in between."""
    before, after = (hands(round(k * 1e9 / fps), 0, 0) for k in (0, frames))
    assert Gap(before, after, np.zeros(2)).is_one is is_one


def test_the_way_between_two_looks_is_straight() -> None:
    gap = Gap(hands(0, 0, 0), hands(100_000_000, 200, 0), np.array([50.0, 30.0]))
    assert gap.passed_ns == 25_000_000
    assert gap.nearest == pytest.approx(30 / 300)
    assert gap.crossed
    assert not Gap(gap.before, hands(100_000_000, 40, 0), gap.ball_px).crossed
    assert share_of_way(np.zeros(2), np.array([10.0, 0.0]), np.array([-5.0, 3.0])) == 0.0


@pytest.mark.parametrize(("lost_frames", "is_judged"), [(0, True), (2, False), (8, False)])
def test_a_swing_unseen_at_the_ball_is_told_and_not_judged(
    lost_frames: int, is_judged: bool
) -> None:
    """The sample's hands are at the ball between its frames 58 and 59."""
    frames = seen("knee_pass_30fps")
    first = 59 - (lost_frames + 1) // 2 if lost_frames > 2 else 58
    told: list[SwingNews] = list(swing_news(frames[:first] + frames[first + lost_frames :], plan()))
    assert isinstance(told[0], UnscorableSwing) is not is_judged
    if isinstance(told[0], UnscorableSwing):
        assert "no picture could be looked at" in told[0].reason
