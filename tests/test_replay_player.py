"""How a replay moves, without a clock."""

import pytest

from baycue.replay.player import SPEEDS, Player, speed_words
from baycue.replay.programme import PICTURES_A_SECOND, shown_after
from baycue.replay.showing import downswing_ns
from baycue.swing.swing import CheckpointName
from tests.replayed_swing import swing_film

S = 1_000_000_000
STAMPS = (0, 100, 200, 300)


def test_time_runs_slower_by_the_speed() -> None:
    assert Player(0, 4 * S, 0, speed=0.25).after(2 * S).at_ns == 0.5 * S


def test_stopped_it_stands() -> None:
    player = Player(0, S, 0.5 * S, playing=False)
    assert player.after(S) == player


def test_past_the_end_it_begins_anew() -> None:
    assert Player(0, 10 * S, 9 * S, speed=1.0).after(3 * S).at_ns == 2 * S
    assert Player(2 * S, 10 * S, 9 * S, speed=1.0).after(3 * S).at_ns == 4 * S


def test_a_loop_stays_within_its_stretch() -> None:
    player = Player(0, 10 * S, 0, speed=0.5).looping((4 * S, 5 * S))
    assert player.at_ns == 4 * S
    assert player.after(1 * S).at_ns == 4.5 * S
    assert player.after(3 * S).at_ns == 4.5 * S
    assert player.looping(None).stretch_ns == (0, 10 * S)


def test_moving_out_of_a_loop_ends_it() -> None:
    player = Player(0, 10 * S, 0).looping((4 * S, 5 * S))
    assert player.moved_to(4.2 * S).loop_ns == (4 * S, 5 * S)
    assert player.moved_to(7 * S).loop_ns is None
    assert player.moved_to(99 * S).at_ns == 10 * S


@pytest.mark.parametrize(
    ("at", "by", "to"),
    [(100, 1, 200), (100, -1, 0), (150, 1, 200), (150, -1, 100), (300, 1, 300), (0, -1, 0)],
)
def test_a_step_goes_to_the_next_picture_and_stops(at: int, by: int, to: int) -> None:
    stepped = Player(0, 300, at).stepped(STAMPS, by)
    assert (stepped.at_ns, stepped.playing) == (to, False)


def test_speeds_end_at_both_ends() -> None:
    player = Player(0, S, 0, speed=1.0)
    assert player.slower(-1).speed == 1.0
    for speed in SPEEDS[1:]:
        player = player.slower()
        assert player.speed == speed
    assert player.slower().speed == SPEEDS[-1]
    assert [speed_words(s) for s in SPEEDS] == ["full speed", "1/2 speed", "1/4 speed", "1/8 speed"]


def test_a_live_bay_shows_the_swing_then_its_downswing_twice_and_begins_anew() -> None:
    film = swing_film()
    whole_s = (film.stamps_ns[-1] - film.stamps_ns[0]) / 0.5 / S
    down = downswing_ns(film)
    assert down is not None
    once_s = (down[1] - down[0]) / 0.125 / S
    first = shown_after(film, 0)
    assert (first.player.at_ns, first.player.speed) == (film.stamps_ns[0], 0.5)
    for turn in range(2):
        # A tenth of a second in, so that the steps of the drawing cannot fall before it.
        slow = shown_after(film, round((whole_s + turn * once_s + 0.1) * S))
        assert (slow.player.speed, slow.player.stretch_ns) == (0.125, down)
        assert down[0] <= slow.player.at_ns < down[0] + 0.02 * S
    anew = shown_after(film, round((whole_s + 2 * once_s + 0.1) * S))
    assert (anew.player.speed, anew.player.loop_ns) == (0.5, None)


def test_a_live_bay_draws_no_oftener_than_it_may() -> None:
    film = swing_film()
    shown = {shown_after(film, k * S // 200).player.at_ns for k in range(200)}
    assert len(shown) <= PICTURES_A_SECOND + 1


def test_the_downswing_is_from_top_to_impact_and_a_little_more() -> None:
    film = swing_film()
    known = film.checkpoints_ns
    down = downswing_ns(film)
    assert down is not None
    assert down[0] == known[CheckpointName.TOP] - S // 10
    assert down[1] == min(known[CheckpointName.IMPACT] + S // 10, film.stamps_ns[-1])
