"""A student who is deleted is in no byte of any file; a film goes only by rule and word."""

import sqlite3
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest

from baycue.errors import KeptError
from baycue.keep import pages
from baycue.keep.check import check
from baycue.keep.forget import belongings, forget
from baycue.keep.kept_session import KeptSession
from baycue.keep.log import SwingLog
from baycue.keep.names import folder_name
from baycue.keep.place import Place
from baycue.keep.retention import KeptFilm, Rule, delete_films, films, may_go
from tests.test_keep_check import filmed_swings

NAME = "Kestrelwood"
"""Invented, and in no other file by chance."""


def files_with(place: Place, word: str) -> list[Path]:
    found = [p for p in place.folder.rglob("*") if p.is_file() and word.encode() in p.read_bytes()]
    return found + [p for p in place.folder.rglob("*") if word.lower() in p.name.lower()]


@pytest.fixture
def place(tmp_path: Path) -> Place:
    found = Place(tmp_path / "kept")
    filmed_swings(found, NAME)
    filmed_swings(found, "Heron")
    return found


def test_no_byte_of_the_name_is_left(place: Place) -> None:
    assert files_with(place, NAME)
    kept = belongings(place, NAME)
    assert (kept.swings, kept.files) == (3, 7)
    forget(place, kept)
    assert files_with(place, NAME) == []
    assert files_with(place, folder_name(NAME)) == []


def test_everybody_else_stays(place: Place) -> None:
    forget(place, belongings(place, NAME))
    assert check(place, every_byte=True).wrong == []
    with SwingLog(place.log) as log:
        assert pages.student_names(log) == ("Heron",)
        assert [s.swings for s in pages.sessions(log)] == [3]


def test_also_while_another_program_has_the_log_open(place: Place) -> None:
    other = sqlite3.connect(place.log)
    other.execute("SELECT count(*) FROM swings").fetchone()
    forget(place, belongings(place, NAME))
    assert files_with(place, NAME) == []
    other.close()


def test_a_log_that_was_set_aside_goes_too(place: Place) -> None:
    aside = place.log.with_name("log.damaged-1.sqlite")
    aside.write_bytes(NAME.encode())
    forget(place, belongings(place, NAME))
    assert files_with(place, NAME) == []


def test_cut_off_after_the_files_it_can_be_done_again(place: Place) -> None:
    for path in sorted(place.student(NAME).rglob("*"), reverse=True):
        path.unlink() if path.is_file() else path.rmdir()
    forget(place, belongings(place, NAME))
    assert files_with(place, NAME) == []


def test_nobody_is_deleted_while_playing(place: Place) -> None:
    session = KeptSession(place, NAME, "a camera")
    with pytest.raises(KeptError, match="is going on; end it first"):
        forget(place, belongings(place, NAME))
    session.close()
    assert len(list(place.student(NAME).rglob("*.mov"))) == 3


def test_a_misspelt_name_deletes_nothing(place: Place) -> None:
    with pytest.raises(KeptError, match='nothing is kept of "Herron"; did you mean "Heron"'):
        belongings(place, "Herron")


def test_a_link_in_the_students_place_is_not_followed(place: Place, tmp_path: Path) -> None:
    elsewhere = tmp_path / "elsewhere"
    place.student(NAME).rename(elsewhere)
    place.student(NAME).symlink_to(elsewhere, target_is_directory=True)
    with pytest.raises(KeptError, match="is a link"):
        forget(place, belongings(place, NAME))
    assert len(list(elsewhere.rglob("*.mov"))) == 3


NOW = datetime(2026, 11, 26, tzinfo=UTC)


def film(number: int, days_old: float) -> KeptFilm:
    at = (NOW - timedelta(days=days_old)).isoformat(timespec="milliseconds")
    return KeptFilm(number, f"{number}.mov", at.replace("+00:00", "Z"), 1000)


KEPT = [film(1, 100), film(2, 50), film(3, 10), film(4, 1)]


@pytest.mark.parametrize(
    ("rule", "going"),
    [
        (Rule(), []),
        (Rule(days=60), [1]),
        (Rule(days=0), [1, 2, 3, 4]),
        (Rule(most_bytes=4000), []),
        (Rule(most_bytes=2500), [1, 2]),
        (Rule(days=60, most_bytes=2500), [1, 2]),
        (Rule(most_bytes=0), [1, 2, 3, 4]),
    ],
)
def test_the_rule_lets_the_oldest_go(rule: Rule, going: list[int]) -> None:
    assert [f.swing_id for f in may_go(KEPT, rule, NOW)] == going


def test_films_go_and_all_else_stays(place: Place) -> None:
    with SwingLog(place.log) as log:
        kept = films(log)
        assert len(kept) == 6
        delete_films(log, place, kept[:4])
        assert len(films(log)) == 2
    assert len(list(place.students.rglob("*.mov"))) == 2
    assert check(place).wrong == []
    assert len(list(place.students.rglob("*.json.gz"))) == 6
