"""The last swing again on the live screen: when it comes, and when it goes."""

from collections.abc import Iterator
from dataclasses import replace

import pygame
import pytest

from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Shot
from baycue.cues.letters import Viewing
from baycue.cues.live_page import LivePainter
from baycue.cues.live_words import VerdictPage, live_page
from baycue.live.again import READ_FIRST_NS, SwingAgain
from baycue.live.view import LiveView, Stage
from baycue.replay.film import span_of
from baycue.replay.overlay import Overlay
from baycue.replay.page import ReplayPage
from baycue.swing.swing import Checkpoint, CheckpointName
from tests.replayed_swing import swing_film
from tests.scored_swing import scored_swing
from tests.test_capture_network import wait_until

SCORED = scored_swing()
READY_NS = span_of(SCORED)[1]


@pytest.fixture
def again() -> Iterator[SwingAgain]:
    ring: Ring[Shot] = Ring(Bounds(60.0, 1 << 30))
    for shot in swing_film().shots:
        ring.put(shot)
    made = SwingAgain(ring)
    yield made
    made.close()


def gathered(again: SwingAgain) -> SwingAgain:
    """With its film in hand, the verdict first seen when all pictures had come."""
    again.known(SCORED)
    assert again.shown(READY_NS, SCORED.verdict, True) is None
    late = READY_NS + READ_FIRST_NS
    wait_until(lambda: again.shown(late, SCORED.verdict, True) is not None)
    return again


def test_the_verdict_is_read_first_then_the_swing_plays(again: SwingAgain) -> None:
    gathered(again)
    assert again.shown(READY_NS + READ_FIRST_NS - 1, SCORED.verdict, True) is None
    pages = [
        again.shown(READY_NS + READ_FIRST_NS + k * 10**8, SCORED.verdict, True) for k in range(9)
    ]
    assert all(page is not None for page in pages)
    assert len({page.key for page in pages if page}) > 5


def test_the_next_address_ends_it_and_the_verdict_comes_first_again(again: SwingAgain) -> None:
    gathered(again)
    late = READY_NS + 10 * READ_FIRST_NS
    assert again.shown(late, SCORED.verdict, True)
    assert again.shown(late, SCORED.verdict, False) is None
    assert again.shown(late, SCORED.verdict, True) is None
    assert again.shown(late + READ_FIRST_NS, SCORED.verdict, True)
    again.anew()
    assert again.shown(late + READ_FIRST_NS, SCORED.verdict, True) is None


def test_only_the_swing_that_was_told_is_shown(again: SwingAgain) -> None:
    gathered(again)
    late, other = READY_NS + 10 * READ_FIRST_NS, replace(SCORED.verdict, swing_number=7)
    assert again.shown(late, other, True) is None
    assert again.shown(late, None, True) is None
    again.known(None)
    assert again.shown(late, SCORED.verdict, True) is None


def test_before_all_pictures_have_come_nothing_is_gathered(again: SwingAgain) -> None:
    again.known(SCORED)
    for k in range(5):
        assert again.shown(READY_NS - 1 - k, SCORED.verdict, True) is None
    assert again.shown(READY_NS - 1, SCORED.verdict, True) is None


def test_keys_take_it_in_hand_until_the_next_address(again: SwingAgain) -> None:
    gathered(again)
    late = READY_NS + 2 * READ_FIRST_NS
    again.pressed(pygame.K_6, READY_NS)
    playing = again.shown(late, SCORED.verdict, True)
    assert playing is not None
    assert playing.showing.player.playing, "too early to take in hand"
    again.pressed(pygame.K_6, late)
    for wait_ns in (0, 10**9):
        page = again.shown(late + wait_ns, SCORED.verdict, True)
        assert page is not None
        p6_ns = page.showing.film.checkpoints_ns[CheckpointName.P6]
        assert (page.showing.player.at_ns, page.showing.player.playing) == (p6_ns, False)
    again.pressed(pygame.K_o, late)
    again.pressed(pygame.K_RIGHT, late)
    page = again.shown(late, SCORED.verdict, True)
    assert page is not None
    assert page.showing.overlay is Overlay.BODY
    assert page.showing.player.at_ns > p6_ns
    assert again.shown(late, SCORED.verdict, False) is None
    assert again.shown(late, SCORED.verdict, True) is None
    by_itself = again.shown(late + READ_FIRST_NS, SCORED.verdict, True)
    assert by_itself is not None
    assert by_itself.showing.player.playing


def test_told_of_the_finish_what_was_seen_later_is_drawn_as_well(again: SwingAgain) -> None:
    evidence = SCORED.evidence
    judged = replace(SCORED, evidence=replace(evidence, poses=evidence.poses[:-6], shaft=()))
    again.known(judged)
    late = READY_NS + READ_FIRST_NS
    assert again.shown(READY_NS, judged.verdict, True) is None
    wait_until(lambda: again.shown(late, judged.verdict, True) is not None)
    page = again.shown(late, judged.verdict, True)
    assert page is not None
    last = len(page.showing.film.shots) - 1
    assert page.showing.film.sight(last) is None
    at_ns = SCORED.decided_ns + 500_000_000
    finish = Checkpoint(CheckpointName.FINISH, at_ns, 200_000_000)
    swing = replace(evidence.swing, checkpoints=(*evidence.swing.checkpoints, finish))
    again.finished(replace(judged, evidence=replace(evidence, swing=swing)), evidence.poses[-6:])

    def renewed() -> bool:
        now = again.shown(late + 2_000_000_000, judged.verdict, True)
        return now is not None and now.showing.film.sight(last) is not None

    assert again.shown(late + 10**8, judged.verdict, True) is not None, "it goes on meanwhile"
    wait_until(renewed)


def test_the_live_screen_shows_it_only_at_the_verdict(again: SwingAgain) -> None:
    page = gathered(again).shown(READY_NS + READ_FIRST_NS, SCORED.verdict, True)
    view = LiveView(Stage.VERDICT, SCORED.verdict, replay=page)
    assert isinstance(live_page(view).main, ReplayPage)
    assert isinstance(live_page(replace(view, stage=Stage.ADDRESS)).main, VerdictPage)
    surface, without = pygame.Surface((1280, 720)), pygame.Surface((1280, 720))
    LivePainter(Viewing()).draw(surface, live_page(view))
    LivePainter(Viewing()).draw(without, live_page(replace(view, replay=None)))
    grey = (pygame.surfarray.array3d(surface) == 90).all(axis=2).mean()
    assert grey > 0.2
    assert (pygame.surfarray.array3d(without) == 90).all(axis=2).mean() < 0.01
