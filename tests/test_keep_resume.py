"""A session that was cut off a short while ago goes on: one session, numbers and counts go on."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from baycue.cues.speaker import NoGuide
from baycue.keep import pages
from baycue.keep.kept_session import KeptSession
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.recover import recover
from baycue.keep.resume import RESUMED_WITHIN_S, CutOff, Resumed, resumed
from baycue.keep.standing import (
    STANDING_FILE,
    PracticePlace,
    Standing,
    read_standing,
    write_standing,
)
from baycue.live.plans import TargetSet
from baycue.live.practices import Practices
from baycue.plan.load import parse_plan
from tests.kept_swing import PLAN, PROBE, swing_record

NOW = datetime.now(UTC)
PRACTICE = PLAN + "practice:\n  blocks:\n    - drills: [{drill: full swing, count: 4}]\n"


@pytest.fixture
def place(tmp_path: Path) -> Place:
    (tmp_path / "kept").mkdir()
    return Place(tmp_path / "kept")


def killed_session(place: Place, swings: int, standing: Standing | None = None) -> None:
    """A session of so many swings whose process is gone."""
    session = KeptSession(place, "Heron", "a camera", lambda: NOW)
    for number in range(1, swings + 1):
        session.keep(session.stamped(swing_record(number)))
    if standing:
        session.stands(standing)
    session.let_go()


def found(place: Place, later_s: float = 30.0) -> Resumed:
    cut_off = [CutOff(facts, folder) for facts, folder in recover(place).folders]
    return resumed(cut_off, ["Heron"], NOW + timedelta(seconds=later_s))


def test_a_standing_comes_back_as_it_was_written(tmp_path: Path) -> None:
    standing = Standing(7, 6, 4, 2, 1, (PracticePlace(0, ((0, 0), (0, 1)), 1, (1,)),))
    write_standing(tmp_path, standing)
    assert read_standing(tmp_path) == standing


@pytest.mark.parametrize("text", ["", "{", '{"format": "another"}', "[]"])
def test_a_standing_that_cannot_be_read_is_the_start(tmp_path: Path, text: str) -> None:
    (tmp_path / STANDING_FILE).write_text(text)
    assert read_standing(tmp_path) == Standing()


def test_swings_kept_after_it_are_counted(place: Place) -> None:
    killed_session(place, 3, Standing(1, 1, 1, 1))
    standing = found(place).standing
    passed = swing_record().scored
    assert passed is not None
    assert (standing.number, standing.balls) == (3, 3)


def test_a_silent_probe_is_numbered_and_not_counted() -> None:
    standing = Standing().caught_up([replace(swing_record(1), go=PROBE)])
    assert (standing.number, standing.balls) == (1, 0)


def test_it_is_one_session_in_the_log_and_has_not_ended(place: Place) -> None:
    killed_session(place, 2)
    (facts,) = found(place).facts
    again = KeptSession(place, "Heron", "a camera", lambda: NOW, facts)
    again.keep(again.stamped(swing_record(3)))
    with SwingLog(place.log) as log:
        (row,) = pages.sessions(log)
        assert row.ended_how is None
        assert [s.number for s in pages.swings_of_session(log, row.id)] == [1, 2, 3]
    again.close()
    with SwingLog(place.log) as log:
        assert pages.sessions(log)[0].ended_how == "closed"


def test_killed_again_before_any_swing_it_still_goes_on(place: Place) -> None:
    killed_session(place, 2)
    (facts,) = found(place).facts
    KeptSession(place, "Heron", "a camera", lambda: NOW, facts).let_go()
    assert found(place).standing.number == 2


@pytest.mark.parametrize(
    ("later_s", "goes_on"),
    [
        (RESUMED_WITHIN_S - 60, True),
        (RESUMED_WITHIN_S + 60, False),
        (-RESUMED_WITHIN_S + 60, True),
        (-RESUMED_WITHIN_S - 60, False),
    ],
)
def test_only_within_its_time_wherever_the_clock_was_set(
    place: Place, later_s: float, goes_on: bool
) -> None:
    killed_session(place, 1)
    assert bool(found(place, later_s).facts) is goes_on


def test_another_students_session_does_not_go_on(place: Place) -> None:
    killed_session(place, 1)
    cut_off = [CutOff(facts, folder) for facts, folder in recover(place).folders]
    assert resumed(cut_off, ["Alder"], NOW) == Resumed()


def test_a_session_that_was_ended_does_not_go_on(place: Place) -> None:
    session = KeptSession(place, "Heron", "a camera", lambda: NOW)
    session.keep(session.stamped(swing_record(1)))
    session.close()
    assert found(place) == Resumed()


def test_what_the_log_refused_is_entered_when_it_is_back(place: Place) -> None:
    session = KeptSession(place, "Heron", "a camera", lambda: NOW)
    aside = place.log.with_suffix(".aside")
    place.log.rename(aside)
    place.log.mkdir()
    session.keep(session.stamped(swing_record(1)))
    assert session.log_trouble
    place.log.rmdir()
    aside.rename(place.log)
    session.keep(session.stamped(swing_record(2)))
    assert not session.log_trouble
    with SwingLog(place.log) as log:
        (row,) = pages.sessions(log)
        assert [s.number for s in pages.swings_of_session(log, row.id)] == [1, 2]
    session.close()


class TestPractice:
    def sets(self, text: str = PRACTICE) -> list[TargetSet]:
        return [TargetSet("heron", parse_plan(text, "a test"))]

    def taken_up(self, text: str, resumed: Resumed | None = None) -> Practices:
        return Practices(self.sets(text), NoGuide(), lambda left: None, None, resumed)

    def test_it_goes_on_at_its_place(self) -> None:
        (place,) = self.taken_up(PRACTICE).places()
        further = replace(place, number=3, done=(3,))
        resumed = Resumed(standing=Standing(3, 3, places=(further,)))
        assert self.taken_up(PRACTICE, resumed).places() == (further,)

    def test_another_lay_out_begins_at_its_start(self) -> None:
        (place,) = self.taken_up(PRACTICE).places()
        resumed = Resumed(standing=Standing(3, 3, places=(replace(place, number=3, done=(3,)),)))
        other = PRACTICE.replace("count: 4", "count: 5")
        assert self.taken_up(other, resumed).places()[0].number == 0

    def test_a_go_kept_after_it_moves_it_on(self) -> None:
        go = replace(PROBE, place=replace(PROBE.place, block=0, drill=0), probe=False)
        (place,) = self.taken_up(PRACTICE).places()
        standing = Standing(places=(place,)).caught_up([replace(swing_record(1), go=go)])
        assert (standing.places[0].number, standing.places[0].done) == (1, (1,))
