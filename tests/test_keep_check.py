"""What is damaged or gone is told, and what can be is made whole; nothing whole is touched."""

import os
import shutil
import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from baycue.keep import pages
from baycue.keep.check import check, log_fault, repair
from baycue.keep.entries import add_session, add_swing
from baycue.keep.film import FilmWriter
from baycue.keep.folders import SessionFacts
from baycue.keep.kept_session import KeptSession
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.record import SwingRecord
from tests.command_line import files
from tests.jpeg_shots import jpeg_shots, uneven_stamps_ns
from tests.kept_swing import PROBE, swing_record
from tests.test_keep_session import Bay, told


def filmed_swings(place: Place, student: str = "Heron", swings: int = 3) -> KeptSession:
    """A session with films that is over."""
    place.folder.mkdir(exist_ok=True)
    session = KeptSession(place, student, "a camera")
    for number in range(1, swings + 1):
        session.keep(with_real_film(session, number, student))
    session.close()
    return session


def with_real_film(session: KeptSession, number: int, student: str) -> SwingRecord:
    writer = FilmWriter(session.film_path(number))
    for shot in jpeg_shots(uneven_stamps_ns(20)):
        writer.write(shot)
    return replace(session.stamped(swing_record(number, student)), film=writer.finish(), no_film="")


@pytest.fixture
def place(tmp_path: Path) -> Place:
    found = Place(tmp_path / "kept")
    filmed_swings(found)
    return found


def one(place: Place, name: str) -> Path:
    (found,) = place.students.rglob(name)
    return found


def flip(path: Path, share: float = 0.5) -> None:
    data = bytearray(path.read_bytes())
    data[int(share * len(data))] ^= 0xFF
    path.write_bytes(data)


def settle(place: Place) -> None:
    """All of the log in its one file."""
    with SwingLog(place.log) as log:
        log.rows("PRAGMA wal_checkpoint(TRUNCATE)")


def test_all_is_whole(place: Place) -> None:
    before = files(place.folder)
    found = check(place, every_byte=True)
    assert (found.sidecars, found.films, found.wrong) == (3, 3, [])
    assert files(place.folder) == before


def test_every_damage_is_told(place: Place) -> None:
    flip(one(place, "swing_001.json.gz"))
    flip(one(place, "swing_002.mov"))
    one(place, "swing_003.mov").unlink()
    wrong = "\n".join(check(place, every_byte=True).wrong)
    assert "swing_001.json.gz: " in wrong
    assert "swing_002.mov: damaged" in wrong
    assert "swing_003.mov: the film is gone" in wrong


def test_a_sidecar_that_is_gone_and_one_that_the_log_lacks_are_told(place: Place) -> None:
    lost = one(place, "swing_002.json.gz")
    shutil.copy(lost, lost.with_name("swing_009.json.gz"))
    lost.unlink()
    wrong = "\n".join(check(place).wrong)
    assert "swing_009.json.gz: is not in the log" in wrong
    assert "swing_002.json.gz: the sidecar is gone" in wrong


@pytest.mark.parametrize("share", [0.001, 0.3, 0.5, 0.9])
def test_a_damaged_log_is_set_aside_and_made_anew(place: Place, share: float) -> None:
    settle(place)
    data = bytearray(place.log.read_bytes())
    at = int(share * len(data))
    data[at : at + 4096] = os.urandom(4096)
    place.log.write_bytes(data)
    assert log_fault(place)
    assert log_fault(place) in check(place).wrong
    damaged, sidecars = place.log.read_bytes(), files(place.students)
    done = repair(place).done
    assert "set aside as log.damaged-1.sqlite" in done[0]
    assert done[-1] == "3 swings put into the log from their sidecars"
    assert check(place, every_byte=True).wrong == []
    assert place.log.with_name("log.damaged-1.sqlite").read_bytes() == damaged
    assert files(place.students) == sidecars
    with SwingLog(place.log) as log:
        (session,) = pages.sessions(log)
    assert (session.swings, session.fails, session.ended_how) == (3, 3, "closed")


def test_a_log_made_anew_tells_which_go_each_swing_was(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    place.folder.mkdir()
    session = KeptSession(place, "Heron", "a camera")
    for number, go in enumerate((PROBE, None), 1):
        session.keep(replace(session.stamped(swing_record(number)), go=go))
    session.close()
    settle(place)
    place.log.write_bytes(b"no database" * 500)
    repair(place)
    with SwingLog(place.log) as log:
        assert [row.go for row in pages.swings_of_session(log, 1)] == [PROBE, None]


def test_a_session_whose_log_was_damaged_is_put_in_later(tmp_path: Path) -> None:
    bay = Bay(Place(tmp_path / "kept"))
    bay.place.folder.mkdir()
    bay.place.log.write_bytes(b"no database" * 500)
    with bay.keeper() as keeper:
        keeper.known(told())
    assert "`baycue log check --repair`" in keeper.trouble
    repair(bay.place)
    assert [row.number for row in bay.rows()] == [1]
    assert check(bay.place).wrong == []


def test_half_written_files_are_listed(place: Place) -> None:
    folder = one(place, "session.json").parent
    (folder / "swing_004.mov.partial").write_bytes(b"half")
    (line,) = check(place).wrong
    assert line.endswith("swing_004.mov.partial: left over from a session that was cut off")


def test_the_log_of_a_row_that_belongs_to_nothing_is_told(place: Place) -> None:
    connection = sqlite3.connect(place.log)
    with connection:
        connection.execute("UPDATE swings SET plan_id = 99")
    connection.close()
    assert "belong to nothing" in log_fault(place)


def test_on_a_full_disk_what_was_whole_stays_whole_and_it_is_told(small_disk: Path) -> None:
    bay = Bay(Place(small_disk / "kept"))
    bay.film_all()
    troubles = []
    for _ in range(12):
        with bay.keeper() as keeper:
            for number in (1, 2):
                keeper.known(told(number))
        troubles.append(keeper.trouble)
    assert any("No space left" in trouble for trouble in troubles), troubles
    kept = [record for record in bay.records() if record.film]
    assert kept
    wrong = check(bay.place, every_byte=True).wrong
    assert not [line for line in wrong if "damaged" in line], wrong


def facts_of(session: KeptSession) -> SessionFacts:
    return session._folder.facts


def test_adding_what_is_there_changes_nothing(place: Place) -> None:
    session = filmed_swings(place, "Alder", 1)
    with SwingLog(place.log) as log:
        add_session(log, facts_of(session))
        assert not add_swing(log, facts_of(session), swing_record(1, "Alder"))
