"""What the screen says of a session, and that it can be read."""

from dataclasses import replace

import pygame
import pytest

from baycue.cues.canvas import DrawnLine
from baycue.cues.letters import LEAST_ARCMIN, Viewing, letter_height_px
from baycue.cues.live_page import draw_live
from baycue.cues.live_words import LivePage, live_page
from baycue.cues.practice_words import DrillPage, HoldPage
from baycue.live.view import Health, LiveView, Stage
from baycue.practice.catalogue import drills
from baycue.practice.drill import EVERY_SWING_CAUTIONS
from baycue.practice.hold import Guidance, Window
from baycue.practice.posture import BUTT, SHAFT
from baycue.practice.summary import Summary, SummaryRow
from baycue.practice.view import PracticeView
from baycue.verdict.verdict import Outcome
from tests.told_verdicts import told_swing

SIZE = (1280, 720)
HEALTH = Health(True, 30.0, 0, True, "a sound card, 48000 Hz")
GROUND = next(drill for drill in drills() if drill.name == "into the ground")
NEXT = PracticeView(
    title="block",
    number=2,
    blocks=4,
    done=3,
    goes=10,
    drill=GROUND.name,
    told=GROUND.told,
    cautions=(*GROUND.cautions, *EVERY_SWING_CAUTIONS),
    is_next=True,
)
WINDOW, BUTT_WINDOW = Window(SHAFT, -10.0, 10.0), Window(BUTT, -0.06, 0.06)
OFF = Guidance(SHAFT, WINDOW, -34.0, 2.5, -24.0, -2.4, False, 0.0, 2.0)
HELD = Guidance(SHAFT, WINDOW, 3.0, 2.5, 0.0, 0.0, True, 1.3, 2.0)
HOLD = replace(NEXT, drill="rehearse and hold", told="To P6: shaft parallel.", is_next=False)
SUMMARY = Summary(
    (Outcome.PASS, Outcome.FAIL, Outcome.TOO_CLOSE),
    (SummaryRow("knee past ankle at P6", 1, 3, "5.6 cm, 2.2 cm, 4.9 cm"),),
)


def view(practice: PracticeView | None, stage: Stage = Stage.WAITING, **more: object) -> LiveView:
    return replace(LiveView(stage=stage, health=HEALTH, practice=practice), **more)  # type: ignore[arg-type]


def hold_view(guidance: Guidance | None) -> LiveView:
    return view(replace(HOLD, is_hold=True, guidance=guidance))


def drawn(shown: LiveView) -> tuple[DrawnLine, ...]:
    return draw_live(pygame.Surface(SIZE), live_page(shown))


VIEWS = {
    "next": view(NEXT),
    "rest": view(replace(NEXT, rest_s=75)),
    "hold off": hold_view(OFF),
    "hold inside": hold_view(HELD),
    "butt": hold_view(Guidance(BUTT, BUTT_WINDOW, 0.14, 0.03, 0.08, 1.33, False, 0.0, 2.0)),
    "nobody": hold_view(None),
    "withheld": view(replace(NEXT, is_next=False), Stage.VERDICT, withheld=True),
    "summary": view(replace(NEXT, is_next=False), Stage.VERDICT, summary=SUMMARY),
    "done": view(PracticeView(is_over=True, progress=("knee: 28 of 30, at least 79 %",))),
}


@pytest.mark.parametrize("name", VIEWS)
@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080), (800, 600)])
def test_nothing_is_cut_off_and_no_lines_overlap(name: str, size: tuple[int, int]) -> None:
    surface = pygame.Surface(size)
    lines = draw_live(surface, live_page(VIEWS[name]))
    for number, line in enumerate(lines):
        assert surface.get_rect().contains(line.box), line.text
        others = [other.box for other in lines[number + 1 :]]
        assert line.box.collidelist(others) == -1, line.text


@pytest.mark.parametrize("name", VIEWS)
def test_the_golfer_can_read_it_from_the_mat(name: str) -> None:
    # 16 arc minutes at the least: ISO 9241-3 and NUREG-0700 as quoted by others.
    usual = Viewing()
    least = letter_height_px(usual.distance_m, LEAST_ARCMIN, usual.screen_width_m, SIZE[0])
    must_read = [line for line in drawn(VIEWS[name]) if line.must_read]
    assert must_read
    assert min(line.cap_px for line in must_read) >= least - 1


def said(shown: LiveView) -> str:
    return " ".join(line.text for line in drawn(shown))


def test_what_is_next_comes_with_its_cautions() -> None:
    told = said(view(NEXT))
    assert "INTO THE GROUND" in told
    assert "block 2 of 4, 3 of 10 done" in told
    for words in ("hard mat", "sore wrist", "facility's rules", "club's reach", "camera"):
        assert words in told


def test_every_drill_has_words_and_what_is_dangerous_has_cautions() -> None:
    assert {drill.name for drill in drills()} >= {
        "full swing",
        "rehearse and hold",
        "into the ground",
        "under a low cane",
    }
    assert all(drill.told for drill in drills())
    assert all(drill.cautions for drill in drills() if drill.name != "full swing")


def test_a_rest_says_how_long_and_what_follows() -> None:
    told = said(view(replace(NEXT, rest_s=75)))
    assert "REST 1:15" in told
    assert "Next: into the ground, 10 to do." in told
    assert "REST 9 s" in said(view(replace(NEXT, rest_s=9)))


class TestHoldPage:
    @staticmethod
    def page(guidance: Guidance) -> HoldPage:
        main = live_page(hold_view(guidance)).main
        assert isinstance(main, HoldPage)
        return main

    def test_it_says_what_to_do_and_how_far(self) -> None:
        page = self.page(OFF)
        assert page.headline == "CLUB HEAD UP"
        assert page.value == "shaft from level: -34 deg"
        assert page.spread == "give or take 2 deg; wanted: -10 deg to 10 deg"
        assert page.upright
        assert not page.is_inside

    def test_inside_it_tells_how_long(self) -> None:
        page = self.page(HELD)
        assert (page.headline, page.is_inside) == ("HOLD IT", True)
        assert (page.held, page.held_words) == (0.65, "held 1.3 of 2 s")

    @pytest.mark.parametrize(
        ("value", "place"), [(0.0, 0.0), (10.0, 0.25), (-10.0, -0.25), (40.0, 0.625)]
    )
    def test_the_gauge_shows_the_window_in_its_middle(self, value: float, place: float) -> None:
        off = WINDOW.off(value)
        guidance = replace(OFF, value=value, off=off, windows_off=off / 10)
        assert self.page(guidance).place == pytest.approx(place, abs=0.003)

    def test_far_off_stays_on_the_gauge(self) -> None:
        assert -1 < self.page(replace(OFF, value=-175.0)).place < -0.85

    def test_a_club_that_is_not_seen_is_said(self) -> None:
        page = self.page(replace(OFF, club_seen=False, sigma=20.0))
        assert page.told == "Club not seen: by arm and hands, not counted."
        assert page.spread.startswith("give or take 20 deg")


class TestWhatIsKeptBack:
    @pytest.mark.parametrize("is_silent", [True, False])
    def test_no_verdict_shows(self, is_silent: bool) -> None:
        practice = replace(NEXT, is_next=False, is_silent=is_silent)
        shown = view(
            practice, Stage.VERDICT, withheld=True, verdict=told_swing(3, Outcome.FAIL), balls=3
        )
        told = said(shown)
        assert "SWING SEEN" in told
        assert "FAIL" not in told
        assert ("kept for your coach" in told) == is_silent

    def test_a_summary_shows_each_swing_and_each_target(self) -> None:
        told = said(VIEWS["summary"])
        assert "1 OF 3 PASSED" in told
        assert "knee past ankle at P6: 1 of 3" in told
        assert "5.6 cm, 2.2 cm, 4.9 cm" in told


def page_of(shown: LiveView) -> LivePage:
    return live_page(shown)


def test_a_verdict_stays_until_what_is_next_is_due() -> None:
    verdict = told_swing(1, Outcome.PASS)
    waits = view(replace(NEXT, is_next=False), Stage.VERDICT, verdict=verdict)
    assert not isinstance(page_of(waits).main, DrillPage)
    due = view(NEXT, Stage.VERDICT, verdict=verdict)
    assert isinstance(page_of(due).main, DrillPage)


def test_the_keys_of_a_session_are_told_only_in_one() -> None:
    assert page_of(view(NEXT)).strip.help.startswith("K skip   B next block")
    assert "skip" not in page_of(view(None)).strip.help
