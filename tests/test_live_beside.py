"""An earlier swing beside the last one on the live screen, read while the replay goes on."""

import threading
from collections.abc import Iterator, Sequence

import pygame
import pytest

from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Shot
from baycue.cues.keys import Pointing, ReplayKey, ReplayPointed
from baycue.errors import KeptError
from baycue.live.again import READ_FIRST_NS, SwingAgain
from baycue.live.beside import NONE_KEPT, READING, Offer
from baycue.live.seen_again import ReplayMeans
from baycue.replay.film import SwingFilm
from baycue.replay.others import Other
from baycue.replay.showing import Showing, Together
from baycue.swing.swing import CheckpointName
from tests.replayed_swing import left_handers_film, swing_film
from tests.test_capture_network import wait_until
from tests.test_live_again import READY_NS, SCORED

LATE = READY_NS + 2 * READ_FIRST_NS
BACK, NEARER = ReplayKey(pygame.K_PAGEDOWN), ReplayKey(pygame.K_PAGEUP)


def gone() -> SwingFilm:
    raise KeptError("swing_002.mov: the film is gone")


EARLIER = (
    Other("monday, swing 3, pass", lambda: swing_film(3)),
    Other("monday, swing 2, fail", gone),
    Other("sunday, swing 9, pass", left_handers_film),
)


@pytest.fixture
def again() -> Iterator[SwingAgain]:
    ring: Ring[Shot] = Ring(Bounds(60.0, 1 << 30))
    for shot in swing_film().shots:
        ring.put(shot)
    made = SwingAgain(ring)
    yield made
    made.close()


def playing(again: SwingAgain, offer: Offer = lambda: EARLIER) -> SwingAgain:
    again.known(SCORED, offer)
    again.shown(READY_NS, SCORED.verdict, True)
    wait_until(lambda: again.shown(LATE, SCORED.verdict, True) is not None)
    return again


def seen(again: SwingAgain) -> Showing:
    showing = again.view(LATE)
    assert showing is not None
    return showing


def read(again: SwingAgain) -> Showing:
    wait_until(lambda: seen(again).other_name != READING)
    return seen(again)


def test_page_down_goes_further_back_and_page_up_nearer(again: SwingAgain) -> None:
    playing(again).heed(BACK, LATE)
    shown = read(again)
    assert shown.other is swing_film(3)
    assert shown.other_name == "monday, swing 3, pass (1 of 3)"
    again.heed(BACK, LATE)
    assert "the film is gone" in read(again).other_name
    again.heed(BACK, LATE)
    assert read(again).other is left_handers_film()
    again.heed(BACK, LATE)
    assert read(again).other_name.endswith("(3 of 3)"), "the ends are the ends"
    for _ in EARLIER:
        again.heed(NEARER, LATE)
    assert read(again).other is swing_film(3)


def test_it_goes_on_while_one_is_read(again: SwingAgain) -> None:
    asked, let = threading.Event(), threading.Event()

    def slowly() -> Sequence[Other]:
        asked.set()
        let.wait(30)
        return EARLIER

    playing(again, slowly).heed(BACK, LATE)
    assert asked.wait(10)
    assert seen(again).other_name == READING
    again.heed(ReplayKey(pygame.K_6), LATE)
    again.heed(ReplayKey(pygame.K_g), LATE)
    assert seen(again).player.at_ns == seen(again).film.checkpoints_ns[CheckpointName.P6]
    let.set()
    assert read(again).other is swing_film(3)


def test_ghost_and_alone_by_key_also_in_a_laid_out_session(again: SwingAgain) -> None:
    playing(again).heed(BACK, LATE)
    ways = [read(again).together]
    for _ in range(2):
        again.heed(ReplayKey(pygame.K_g), LATE)
        ways.append(seen(again).together)
    assert ways == [Together.BESIDE, Together.GHOST, Together.ALONE]


def test_the_next_address_ends_it(again: SwingAgain) -> None:
    playing(again).heed(BACK, LATE)
    assert read(again).other is not None
    assert again.shown(LATE, SCORED.verdict, False) is None
    assert again.view(LATE) is None
    again.heed(BACK, LATE)
    again.shown(LATE, SCORED.verdict, True)
    page = again.shown(LATE + READ_FIRST_NS, SCORED.verdict, True)
    assert page is not None
    assert (page.showing.other, page.showing.other_name) == (None, "")


def test_where_nothing_is_kept_or_can_be_read_it_says_so(again: SwingAgain) -> None:
    playing(again, lambda: ()).heed(BACK, LATE)
    assert read(again).other_name == NONE_KEPT

    def damaged() -> Sequence[Other]:
        raise KeptError("log.sqlite: is damaged")

    again.known(None)
    playing(again, damaged).heed(BACK, LATE)
    wait_until(lambda: "is damaged" in seen(again).other_name)


def test_the_coachs_reference_comes_first_then_earlier_swings(again: SwingAgain) -> None:
    means = ReplayMeans(
        earlier=lambda *whose: EARLIER, reference=Other("coach.mp4", left_handers_film)
    )
    playing(again, lambda: means.others("Heron", "knee", 3)).heed(BACK, LATE)
    shown = read(again)
    assert (shown.other, shown.other_name) == (left_handers_film(), "coach.mp4 (1 of 4)")
    again.heed(BACK, LATE)
    assert read(again).other_name == "monday, swing 3, pass (2 of 4)"
    again.heed(NEARER, LATE)
    assert read(again).other_name == "coach.mp4 (1 of 4)"


def test_a_log_that_cannot_be_read_costs_no_reference(again: SwingAgain) -> None:
    def damaged(*whose: object) -> Sequence[Other]:
        raise KeptError("log.sqlite: is damaged")

    means = ReplayMeans(earlier=damaged, reference=Other("coach.mp4", left_handers_film))
    playing(again, lambda: means.others("Heron", "knee", 3)).heed(BACK, LATE)
    assert read(again).other is left_handers_film()
    again.heed(BACK, LATE)
    assert read(again).other_name == "earlier swings (2 of 2): log.sqlite: is damaged"


def test_the_mouse_plays_steps_and_goes_there(again: SwingAgain) -> None:
    playing(again)
    assert seen(again).player.playing
    again.heed(ReplayPointed(Pointing.CLICK, None), LATE)
    assert not seen(again).player.playing
    impact_ns = seen(again).film.checkpoints_ns[CheckpointName.IMPACT]
    again.heed(ReplayPointed(Pointing.DRAG, impact_ns), LATE)
    there = seen(again)
    assert there.player.at_ns == impact_ns
    again.heed(ReplayPointed(Pointing.DRAG, None), LATE)
    assert seen(again) == there
    again.heed(ReplayPointed(Pointing.WHEEL_ON, None), LATE)
    on_a_picture = seen(again).index
    again.heed(ReplayPointed(Pointing.WHEEL_BACK, None), LATE)
    assert seen(again).index == on_a_picture - 1
    again.heed(ReplayPointed(Pointing.WHEEL_ON, None), LATE)
    assert seen(again).index == on_a_picture
    again.heed(ReplayKey(pygame.K_h), LATE)
    assert seen(again).player.playing
