"""The replay's page and controls, on a surface without a window."""

from dataclasses import replace
from typing import Any

import numpy as np
import pygame
import pytest

from baycue.cues.canvas import Canvas
from baycue.cues.palette import OUTCOME
from baycue.replay.controls import EXPORTS, HELP, heeded
from baycue.replay.film import SwingFilm
from baycue.replay.overlay import Overlay
from baycue.replay.page import TimeLine, draw_replay, replay_page
from baycue.replay.player import SPEEDS
from baycue.replay.showing import Showing, Together, showing
from baycue.swing.swing import CheckpointName
from tests.replayed_swing import left_handers_film, swing_film

SIZES = [(1280, 720), (640, 480), (1920, 1080)]


def key(code: int) -> pygame.event.Event:
    return pygame.event.Event(pygame.KEYDOWN, key=code)


def click(place: tuple[int, int]) -> pygame.event.Event:
    return pygame.event.Event(pygame.MOUSEBUTTONDOWN, button=1, pos=place)


def pressed(shown: Showing, *codes: int) -> Showing:
    for code in codes:
        shown = heeded(shown, key(code), None)
    return shown


@pytest.fixture
def shown() -> Showing:
    return showing(swing_film())


@pytest.fixture
def line(shown: Showing) -> TimeLine:
    return draw_replay(pygame.Surface((1280, 720)), replay_page(shown, help_line=HELP))


@pytest.mark.parametrize("size", SIZES)
def test_verdict_picture_and_time_line_are_on_the_page(size: tuple[int, int]) -> None:
    surface = pygame.Surface(size)
    line = draw_replay(surface, replay_page(showing(swing_film()), "1 of 2 passed", HELP))
    outcome = swing_film().scored.verdict.outcome
    assert tuple(surface.get_at((size[0] // 2, 3)))[:3] == OUTCOME[outcome]
    assert surface.get_rect().contains(line.box)
    middle = surface.get_at((round(0.35 * size[0]), size[1] // 2))
    assert abs(middle[0] - 90) < 12, "the film's grey"


@pytest.mark.parametrize("size", SIZES)
def test_no_checkpoint_s_name_runs_past_the_line_of_time(size: tuple[int, int]) -> None:
    surface = pygame.Surface(size)
    line = draw_replay(surface, replay_page(showing(swing_film())))
    past = pygame.Rect(line.box.right + 3, line.box.top - 12, size[0], 6).clip(surface.get_rect())
    assert len(np.unique(pygame.surfarray.array2d(surface.subsurface(past)))) == 1


def test_equal_pages_have_the_same_pixels_and_another_picture_is_another_page(
    shown: Showing,
) -> None:
    first, again = pygame.Surface((640, 360)), pygame.Surface((640, 360))
    draw_replay(first, replay_page(shown))
    nudged = replace(shown, player=replace(shown.player, at_ns=shown.player.at_ns + 1_000))
    assert replay_page(nudged) == replay_page(shown)
    draw_replay(again, replay_page(nudged))
    assert np.array_equal(pygame.surfarray.array3d(first), pygame.surfarray.array3d(again))
    assert replay_page(pressed(shown, pygame.K_RIGHT)) != replay_page(shown)


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("targets", [1, 3, 4, 6])
def test_value_bound_and_margin_are_told_of_every_target(
    targets: int, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    put: list[str] = []
    told = Canvas.put

    def remembered(self: Canvas, lines: list[str], *rest: Any) -> float:
        put.append(" ".join(lines))
        return told(self, lines, *rest)

    monkeypatch.setattr(Canvas, "put", remembered)
    film = swing_film()
    answer = film.scored.verdict.targets[0]
    assert answer.said is not None
    verdict = replace(film.scored.verdict, targets=(answer,) * targets)
    many = SwingFilm(film.shots, replace(film.scored, verdict=verdict))
    draw_replay(pygame.Surface(size), replay_page(showing(many)))
    for text in (answer.said.value, answer.said.margin_and_end):
        assert put.count(text) == targets
    assert sum(answer.said.bound in line for line in put) == targets


def test_number_keys_stand_at_checkpoints(shown: Showing) -> None:
    known = shown.film.checkpoints_ns
    for code, name in [
        (pygame.K_2, CheckpointName.P2),
        (pygame.K_4, CheckpointName.TOP),
        (pygame.K_6, CheckpointName.P6),
        (pygame.K_7, CheckpointName.IMPACT),
    ]:
        jumped = pressed(shown, code)
        assert jumped.player.at_ns == known[name]
        assert not jumped.player.playing
    assert pressed(shown, pygame.K_9) is shown, "P9 is not told"


def test_space_arrows_and_letters(shown: Showing) -> None:
    assert not pressed(shown, pygame.K_SPACE).player.playing
    assert pressed(shown, pygame.K_SPACE, pygame.K_SPACE).player.playing
    assert pressed(shown, pygame.K_RIGHT, pygame.K_RIGHT).index == 2
    assert pressed(shown, pygame.K_RIGHT, pygame.K_RIGHT, pygame.K_LEFT).index == 1
    assert pressed(shown, pygame.K_DOWN).player.speed == 0.125
    assert pressed(shown, pygame.K_UP, pygame.K_UP).player.speed == SPEEDS[0]
    assert pressed(shown, pygame.K_o).overlay is Overlay.BODY
    looped = pressed(shown, pygame.K_l)
    assert looped.player.loop_ns is not None
    assert pressed(looped, pygame.K_l).player.loop_ns is None
    both = showing(swing_film(), left_handers_film())
    assert pressed(both, pygame.K_b).together is Together.GHOST


def test_every_key_that_does_something_is_in_the_help_line() -> None:
    told = HELP.split()
    for letter in "LOBMITFQ":
        assert letter in told
    assert all(chr(code).upper() in told for code in EXPORTS)


def test_a_click_on_the_line_goes_there_and_one_on_the_picture_stops(
    shown: Showing, line: TimeLine
) -> None:
    impact_ns = shown.film.checkpoints_ns[CheckpointName.IMPACT]
    there = heeded(shown, click((line.x_of(impact_ns), line.box.centery)), line)
    a_pixel_ns = (line.last_ns - line.first_ns) / line.box.width
    assert there.player.at_ns == pytest.approx(impact_ns, abs=a_pixel_ns)
    stopped = heeded(shown, click((300, 300)), line)
    assert not stopped.player.playing
    assert stopped.player.at_ns == shown.player.at_ns


def test_dragging_along_the_line_follows_and_the_wheel_steps(
    shown: Showing, line: TimeLine
) -> None:
    middle = (line.box.centerx, line.box.centery)
    drag = pygame.event.Event(pygame.MOUSEMOTION, buttons=(1, 0, 0), pos=middle)
    idle = pygame.event.Event(pygame.MOUSEMOTION, buttons=(0, 0, 0), pos=middle)
    halfway = (line.first_ns + line.last_ns) / 2
    assert heeded(shown, drag, line).player.at_ns == pytest.approx(halfway, rel=0.01)
    assert heeded(shown, idle, line) is shown
    wheel = pygame.event.Event(pygame.MOUSEWHEEL, y=-1)
    assert heeded(shown, wheel, line).index == 1
