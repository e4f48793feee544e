"""Every state of the live screen, measured in its own pixels."""

from dataclasses import replace
from itertools import combinations

import numpy as np
import pygame
import pytest
import wcag_contrast_ratio
from numpy.typing import NDArray

from baycue.cues.canvas import DrawnLine
from baycue.cues.keys import HELP, PRACTICE_HELP, Key, WindowWish, wish
from baycue.cues.letters import Viewing, letter_height_px
from baycue.cues.live_page import LivePainter, draw_live
from baycue.cues.live_words import live_page
from baycue.cues.marks import COLOUR, Mark, mark_picture
from baycue.cues.palette import CALM, GROUND, OUTCOME, PANEL, QUIET, TEXT
from baycue.cues.screen import CAUTION
from baycue.cues.set_up_page import SET_UP_CAUTIONS, draw_set_up, headline
from baycue.live.view import Health, LiveView, Stage
from baycue.setup.report import Answer, SetUpReport, SetUpRow
from baycue.verdict.judge import judge_swing
from baycue.verdict.verdict import Outcome
from tests.test_cues_screen import SWINGS, fraction, seen_difference, tempo, texts

HEALTH = Health(True, 29.8, 0, True, "default, 48000 Hz, output latency 9 ms")
GO = tuple(SetUpRow(name, Answer.GO, "well") for name in ("distance", "level", "light"))
FEET = SetUpRow("whole golfer", Answer.NO_GO, "feet cut off", "Tilt the camera down.")
LEAN = SetUpRow("level", Answer.NO_GO, "leans", "From behind, turn the camera 4 deg clockwise.")
SOUND = SetUpRow("sound", Answer.UNSURE, "nobody said", "Press S: a tone must sound.")
WRONG = SetUpReport((FEET, *GO, LEAN, SOUND))

STATES = {
    "offline": LiveView(),
    "set-up": LiveView(Stage.SET_UP, health=HEALTH),
    "set-up wrong": LiveView(Stage.SET_UP, health=HEALTH, set_up=WRONG),
    "set-up go": LiveView(Stage.SET_UP, health=HEALTH, set_up=SetUpReport(GO)),
    "waiting": LiveView(Stage.WAITING, plan_name="Heron", health=HEALTH),
    "address": LiveView(Stage.ADDRESS, health=HEALTH),
    "swing": LiveView(Stage.SWING, health=HEALTH),
    "paused": LiveView(Stage.PAUSED, verdict=SWINGS["pass"], health=HEALTH),
    "not judged": LiveView(
        Stage.WAITING, unscorable="the golfer's feet are cut off; tilt it down", health=HEALTH
    ),
    "one": LiveView(Stage.VERDICT, SWINGS["fail"], balls=12, passes=7, health=HEALTH),
    "two": LiveView(Stage.ADDRESS, SWINGS["two"], run_of_passes=3, balls=9, health=HEALTH),
    "three": LiveView(Stage.WAITING, SWINGS["three"], balls=12, passes=7, health=HEALTH),
    "no sound": LiveView(
        Stage.WAITING, SWINGS["three"], health=replace(HEALTH, sound_ok=False, sound="gone")
    ),
}
SIZES = [(1280, 720), (1920, 1080), (1024, 768), (1080, 1920), (3840, 2160)]


def drawn(
    view: LiveView, size: tuple[int, int] = (1280, 720)
) -> tuple[pygame.Surface, tuple[DrawnLine, ...]]:
    surface = pygame.Surface(size)
    return surface, draw_live(surface, live_page(view))


@pytest.mark.parametrize("size", SIZES, ids=str)
@pytest.mark.parametrize("name", STATES)
def test_every_line_is_inside_and_none_covers_another(name: str, size: tuple[int, int]) -> None:
    surface, lines = drawn(STATES[name], size)
    assert all(surface.get_rect().contains(line.box) for line in lines)
    for one, other in combinations(lines, 2):
        assert not one.box.colliderect(other.box), (one.text, other.text)


@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080)], ids=str)
@pytest.mark.parametrize("name", STATES)
def test_what_the_golfer_must_read_is_of_the_least_height(name: str, size: tuple[int, int]) -> None:
    # ISO 9241-3 (secondary): 16 minutes of arc the least; at 4 m from a panel 0.531 m wide.
    _, lines = drawn(STATES[name], size)
    least = letter_height_px(4, 16, 0.531, size[0])
    assert min(line.cap_px for line in lines if line.must_read) >= int(least)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("offline", "CAMERA OFFLINE"),
        ("set-up", "Stand at the ball"),
        ("set-up wrong", "Tilt the camera down."),
        ("set-up go", "SET-UP: GO"),
        ("waiting", "READY"),
        ("address", "ADDRESS SEEN"),
        ("swing", "SWING"),
        ("paused", "PAUSED"),
        ("not judged", "feet are cut off"),
        ("one", "1.9 cm short"),
        ("one", "7 of 12 passed"),
        ("two", "3 in a row"),
        ("two", "address seen"),
        ("three", "ready"),
        ("no sound", "no sound"),
    ],
)
def test_each_state_is_told_in_words(name: str, words: str) -> None:
    assert words in texts(drawn(STATES[name])[1])


@pytest.mark.parametrize("name", STATES)
def test_the_cautions_are_always_there(name: str) -> None:
    told = texts(drawn(STATES[name])[1])
    cautions = SET_UP_CAUTIONS if name in ("set-up wrong", "set-up go") else (CAUTION,)
    assert all(set(caution.split()) <= set(told.split()) for caution in cautions)


def test_keys_and_health_are_in_small_print() -> None:
    told = texts(drawn(STATES["waiting"])[1])
    assert set(HELP.split()) <= set(told.split())
    assert "Camera 30 fps. Sound: default, 48000 Hz" in " ".join(told.split())


def test_a_range_says_which_end_its_margin_counts_from() -> None:
    _, lines = drawn(LiveView(Stage.VERDICT, judge_swing(1, [tempo()]), health=HEALTH))
    assert "0.40 over 3.50" in texts(lines)


def test_a_single_bound_says_only_the_margin() -> None:
    assert "1.9 cm short" in [line.text for line in drawn(STATES["one"])[1]]


def test_news_comes_after_what_is_wrong() -> None:
    view = replace(STATES["three"], notice="sound check")
    assert "sound check" in texts(drawn(view)[1])
    silent = replace(view, health=replace(HEALTH, sound_ok=False))
    assert "no sound. sound check" in texts(drawn(silent)[1])


class TestSetUp:
    def test_the_wrong_comes_before_the_unsure_and_says_what_to_do(self) -> None:
        surface = pygame.Surface((1920, 1080))
        told = texts(draw_set_up(surface, WRONG))
        order = [told.index(row.do.split()[0]) for row in (FEET, SOUND)]
        assert order == sorted(order)
        assert "distance, level, light" in told

    def test_what_does_not_fit_is_counted(self) -> None:
        surface = pygame.Surface((1280, 720))
        many = SetUpReport(tuple(replace(LEAN, name=str(number)) for number in range(9)))
        lines = draw_set_up(surface, many)
        assert "more" in texts(lines)
        assert all(surface.get_rect().contains(line.box) for line in lines)
        assert headline(many) == "SET-UP: 9 TO MEND"


class TestColour:
    """WCAG 2.2: 4.5 for text, 3 for graphics. Machado et al. 2009 for colour vision."""

    @pytest.mark.parametrize("colour", [TEXT, QUIET, *OUTCOME.values()], ids=str)
    def test_text_stands_out_from_the_strip(self, colour: tuple[int, int, int]) -> None:
        assert wcag_contrast_ratio.rgb(fraction(colour), fraction(PANEL)) >= 4.5

    @pytest.mark.parametrize("mark", COLOUR, ids=str)
    def test_marks_and_headlines_stand_out(self, mark: Mark) -> None:
        assert wcag_contrast_ratio.rgb(fraction(COLOUR[mark]), fraction(GROUND)) >= 4.5

    @pytest.mark.parametrize("sight", ["", "deuteranomaly", "protanomaly", "tritanomaly"])
    @pytest.mark.parametrize(("one", "other"), list(combinations(Answer, 2)))
    def test_set_up_answers_differ_for_every_viewer(
        self, one: Answer, other: Answer, sight: str
    ) -> None:
        assert seen_difference(COLOUR[one], COLOUR[other], sight) > 25

    @pytest.mark.parametrize("sight", ["", "deuteranomaly", "protanomaly", "tritanomaly"])
    def test_calm_is_no_pass_and_no_fail(self, sight: str) -> None:
        for outcome in (Outcome.PASS, Outcome.FAIL):
            assert seen_difference(CALM, OUTCOME[outcome], sight) > 15


def silhouette(mark: Mark) -> NDArray[np.bool_]:
    picture = mark_picture(mark, 96, TEXT)
    return np.asarray(pygame.surfarray.array_alpha(picture) > 127)


@pytest.mark.parametrize(
    ("one", "other"), [*combinations(Answer, 2), *combinations(list(Stage), 2)]
)
def test_marks_differ_in_shape_without_colour(one: Mark, other: Mark) -> None:
    a, b = silhouette(one), silhouette(other)
    assert a.any()
    assert b.any()
    assert (a & b).sum() / (a | b).sum() < 0.75


def test_the_main_page_is_drawn_once_while_only_the_strip_changes(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    drawings: list[object] = []
    from baycue.cues import live_page as module
    from baycue.cues.screen import draw_verdict

    def counted(*args: object, **keys: object) -> object:
        drawings.append(args)
        return draw_verdict(*args, **keys)  # type: ignore[arg-type]

    monkeypatch.setattr(module, "draw_verdict", counted)
    painter, surface = LivePainter(Viewing()), pygame.Surface((640, 360))
    for stage in (Stage.VERDICT, Stage.WAITING, Stage.ADDRESS):
        painter.draw(surface, live_page(replace(STATES["one"], stage=stage)))
    assert len(drawings) == 1
    painter.draw(pygame.Surface((800, 450)), live_page(STATES["one"]))
    assert len(drawings) == 2


def test_keys_ask_for_what_the_help_line_says() -> None:
    def pressed(code: int) -> WindowWish | None:
        return wish(pygame.event.Event(pygame.KEYDOWN, key=code))

    asked = {
        pygame.K_SPACE: Key.PAUSE,
        pygame.K_r: Key.REPLAY,
        pygame.K_a: Key.ANSWER,
        pygame.K_n: Key.NEXT_TARGETS,
        pygame.K_s: Key.SOUND_CHECK,
        pygame.K_q: Key.QUIT,
        pygame.K_ESCAPE: Key.QUIT,
        pygame.K_x: None,
    }
    assert {code: pressed(code) for code in asked} == asked
    assert wish(pygame.event.Event(pygame.QUIT)) is Key.QUIT
    assert all(key.value in PRACTICE_HELP for key in Key)
