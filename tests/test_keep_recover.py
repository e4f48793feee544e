"""Killed at any moment: nothing that was whole is lost, what was not is made whole or told of."""

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from baycue.capture.recording import RecordingSource
from baycue.keep import pages
from baycue.keep.film import FilmWriter
from baycue.keep.film_check import check_film, readable_stamps_ns
from baycue.keep.kept_session import KeptSession
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.record import Film
from baycue.keep.recover import CUT_OFF, recover, sidecars
from baycue.keep.sidecar import read_sidecar
from baycue.keep.whole import write_whole
from tests.command_line import PROJECT
from tests.jpeg_shots import jpeg_shots, uneven_stamps_ns
from tests.kept_swing import swing_record

NOON = datetime(2026, 11, 26, 12, 0, tzinfo=UTC)
STAMPS = uneven_stamps_ns(40)
KILLS = 100


def rows(place: Place) -> list[pages.SwingRow]:
    with SwingLog(place.log) as log:
        each = [pages.swings_of_session(log, s.id) for s in pages.sessions(log, limit=1000)]
    return [row for rows in each for row in rows]


def begun(place: Place) -> KeptSession:
    place.folder.mkdir(exist_ok=True)
    return KeptSession(place, "Heron", "a camera", lambda: NOON)


@contextmanager
def killed(session: KeptSession) -> Iterator[KeptSession]:
    """The session's process is gone: nothing was closed, its lock is free."""
    yield session
    session._folder.close(done=False)


def promised(number: int) -> Film:
    return Film(f"swing_{number:03d}.mov", "mjpeg", 0, 0, (STAMPS[0],), 0, 0)


def cut_off_film(session: KeptSession, number: int, tail: bytes = b"") -> None:
    """A film as it lies there when its process is killed."""
    writer = FilmWriter(session.film_path(number))
    for shot in jpeg_shots(STAMPS):
        writer.write(shot)
    so_far = writer.partial_path.read_bytes()
    writer.leave()
    writer.partial_path.write_bytes(so_far + tail)


@pytest.fixture
def place(tmp_path: Path) -> Place:
    return Place(tmp_path / "kept")


@pytest.mark.parametrize("tail", [b"", b"\x00\x00\x00\x70moof\x00\x00"])
def test_a_swing_that_was_being_filmed_is_made_whole(place: Place, tail: bytes) -> None:
    with killed(begun(place)) as session:
        session.keep_first(replace(swing_record(1), film=promised(1), no_film=""))
        cut_off_film(session, 1, tail)
    recovered = recover(place)
    assert recovered.swings == 1
    assert (
        "the session was interrupted; 1 swing that was not whole yet was recovered"
        in recovered.lines[0]
    )
    record = read_sidecar(session.folder / "swing_001.json.gz")
    assert record.scored is not None
    assert record.film is not None
    check_film(session.folder / record.film.file, record.film, every_byte=True)
    off_ns = [abs(a - b) for a, b in zip(record.film.stamps_ns, STAMPS, strict=False)]
    assert len(off_ns) == 39
    assert max(off_ns) < 12_000
    with RecordingSource(session.folder / record.film.file) as source:
        assert len(list(source)) == 39
    assert [row.film is not None for row in rows(place)] == [True]
    names = {path.name for path in session.folder.iterdir()}
    assert names == {"session.json", "swing_001.json.gz", "swing_001.mov"}


def test_the_session_is_marked_as_interrupted(place: Place) -> None:
    with killed(begun(place)) as session:
        session.keep(swing_record(1))
    recover(place)
    with SwingLog(place.log) as log:
        (row,) = pages.sessions(log)
    assert (row.ended_how, row.ended_utc) == ("interrupted", "2026-11-26T14:31:00.000Z")
    assert recover(place).lines == []


def test_without_a_picture_the_rest_is_kept(place: Place) -> None:
    with killed(begun(place)) as session:
        session.keep_first(replace(swing_record(1), film=promised(1), no_film=""))
        (session.folder / "swing_001.mov.partial").write_bytes(b"")
    recover(place)
    record = read_sidecar(session.folder / "swing_001.json.gz")
    assert (record.film, record.no_film) == (None, CUT_OFF)


def test_what_the_log_lacks_is_put_into_it(place: Place) -> None:
    with killed(begun(place)) as session:
        session.keep(swing_record(1))
        session.keep(swing_record(2))
    for name in ("log.sqlite", "log.sqlite-wal", "log.sqlite-shm"):
        (place.folder / name).unlink(missing_ok=True)
    recover(place)
    assert [row.number for row in rows(place)] == [1, 2]


def test_a_damaged_first_sidecar_is_told_of_and_left(place: Place) -> None:
    with killed(begun(place)) as session:
        session.keep(swing_record(1))
        write_whole(session.folder / "swing_002.first.json.gz", b"damaged")
    recovered = recover(place)
    assert any("swing_002.first.json.gz: damaged" in line for line in recovered.lines)
    assert (session.folder / "swing_002.first.json.gz").exists()
    assert [row.number for row in rows(place)] == [1]


def test_a_session_that_goes_on_is_left_alone(place: Place) -> None:
    session = begun(place)
    session.keep_first(swing_record(1))
    assert recover(place).lines == []
    assert (session.folder / "swing_001.first.json.gz").exists()
    session.keep(swing_record(1))
    session.close()
    with SwingLog(place.log) as log:
        assert [s.ended_how for s in pages.sessions(log)] == ["closed"]


@pytest.fixture
def quick_folder(tmp_path: Path) -> Iterator[Path]:
    """In memory where there is such a place: a kill is the same there, and a sync costs nothing."""
    memory = Path("/dev/shm")
    if not (memory.is_dir() and os.access(memory, os.W_OK)):
        yield tmp_path
        return
    with TemporaryDirectory(dir=memory) as folder:
        yield Path(folder)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="kills forked processes")
def test_killed_a_hundred_times_nothing_that_was_whole_is_lost(quick_folder: Path) -> None:
    place = Place(quick_folder / "kept")
    done = subprocess.run(
        [sys.executable, "-m", "tests.killed_writer", str(place.folder), str(KILLS), "7"],
        cwd=PROJECT,
        capture_output=True,
        text=True,
        check=True,
    )
    said = {(session, int(number)) for session, number in json.loads(done.stdout)}
    assert said, "none lived long enough to keep a swing"
    whole = {p for folder in place.students.glob("*/*") for p in sidecars(folder)}
    before = {path: path.read_bytes() for path in whole}
    assert sum(1 for _ in place.students.glob("*/*/in_use")) > KILLS // 2
    recover(place)
    assert {p: p.read_bytes() for p in before} == before, "a whole sidecar was changed"
    kept = rows(place)
    assert said <= {(row.session.rpartition("/")[2], row.number) for row in kept}
    assert len(kept) == len({row.sidecar for row in kept})
    for row in kept:
        record = read_sidecar(place.inside(row.sidecar))
        was_said = (row.session.rpartition("/")[2], row.number) in said
        assert record.number == row.number
        assert record.film or not was_said
        if record.film:
            film = place.inside(row.sidecar).with_name(record.film.file)
            check_film(film, record.film, every_byte=True)
            assert len(readable_stamps_ns(film)[1]) == len(record.film.stamps_ns)
            assert len(record.film.stamps_ns) == 40 or not was_said
    assert list(place.students.glob("*/*/in_use")) == []
    assert list(place.students.rglob("*.first.json.gz")) == []
    with SwingLog(place.log) as log:
        assert log.rows("PRAGMA integrity_check")[0][0] == "ok"
    assert recover(place).lines == []
