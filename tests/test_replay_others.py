"""Walking through the swings that one may be compared with."""

from dataclasses import replace
from pathlib import Path

import pytest

from baycue.commands.replay import earlier
from baycue.errors import KeptError
from baycue.keep.place import Place
from baycue.plan.stance import View
from baycue.replay.film import SwingFilm
from baycue.replay.others import NO_OTHERS, Other, Others, others_of, walk
from baycue.replay.page import replay_page
from baycue.replay.showing import showing
from tests.command_line import PLAN
from tests.replayed_swing import swing_film
from tests.test_keep_check import filmed_swings


def gone() -> SwingFilm:
    raise KeptError("swing_002.mov: the film is gone")


def from_behind() -> SwingFilm:
    film = swing_film(2)
    evidence = replace(film.scored.evidence, view=View.DOWN_THE_LINE)
    return SwingFilm(film.shots, replace(film.scored, evidence=evidence))


EARLIER = (
    Other("monday, swing 3, pass", lambda: swing_film(3)),
    Other("monday, swing 2, fail", gone),
    Other("sunday, swing 9, pass", from_behind),
)


def test_page_down_goes_further_back_and_page_up_nearer() -> None:
    shown, others = walk(showing(swing_film()), others_of(None, EARLIER), 1)
    assert shown.other is swing_film(3)
    assert shown.other_name == "monday, swing 3, pass (1 of 3)"
    shown, others = walk(shown, others, 1)
    assert others.at == 1
    shown, others = walk(shown, others, -1)
    assert (shown.other, others.at) == (swing_film(3), 0)
    assert walk(shown, others, -1)[1].at == 0, "the ends are the ends"


@pytest.mark.parametrize(("at", "why"), [(1, "the film is gone"), (2, "was filmed")])
def test_one_that_cannot_be_shown_says_why_and_the_next_can(at: int, why: str) -> None:
    shown, others = walk(showing(swing_film()), Others(EARLIER, at - 1), 1)
    assert shown.other is None
    assert why in shown.other_name
    assert walk(shown, others, -at)[0].other is swing_film(3)


def test_the_coachs_reference_comes_first_and_is_on() -> None:
    reference = Other("coach.mp4", lambda: swing_film(7))
    others = others_of(reference, EARLIER)
    assert (others.at, others.all_of_them[0].name) == (0, "coach.mp4")
    shown, others = walk(showing(swing_film(), swing_film(7)), others, 1)
    assert shown.other is swing_film(3)
    assert walk(shown, others, -1)[0].other is swing_film(7)


def test_another_choice_is_another_page_and_nothing_to_choose_is_told() -> None:
    alone = showing(swing_film())
    shown, _ = walk(alone, others_of(None, EARLIER), 1)
    assert replay_page(shown) != replay_page(alone)
    told, _ = walk(alone, NO_OTHERS, 1)
    assert told.other_name == "no earlier swing of this student is kept"
    assert replay_page(told) != replay_page(alone)


def test_kept_swings_before_it_are_offered_the_newest_first(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    filmed_swings(place, "Alder", 2)
    first, second = filmed_swings(place, "Heron", 3), filmed_swings(place, "Heron", 2)
    shown = second.folder / "swing_002.json.gz"
    names = [other.name for other in earlier(place, shown, None)]
    sessions = [second.folder.name, *[first.folder.name] * 3]
    numbers = (1, 3, 2, 1)
    wanted = [f"{s}, swing {n}, pass" for s, n in zip(sessions, numbers, strict=True)]
    outcome = names[0].rpartition(", ")[2]
    assert names == [each.replace("pass", outcome) for each in wanted]
    assert earlier(place, first.folder / "swing_001.json.gz", None) == ()
    elsewhere = tmp_path / "swing_001.json.gz"
    assert earlier(place, elsewhere, None) == ()


def test_beside_a_recording_all_of_its_plans_student_are_offered(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    assert earlier(place, tmp_path / "swing.mp4", PLAN) == ()
    filmed_swings(place, "Heron", 3)
    offered = earlier(place, tmp_path / "swing.mp4", PLAN)
    from baycue.plan.load import load_plan

    assert len(offered) == (3 if load_plan(PLAN).student == "Heron" else 0)
