"""Films made small: the same pictures at the same times, and at every moment one whole film."""

import os
import subprocess
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from tempfile import TemporaryDirectory

import numpy as np
import pytest

from baycue.capture.recording import RecordingSource
from baycue.commands.log_compact import Calm
from baycue.errors import KeptError
from baycue.keep import compact as compact_room
from baycue.keep import pages
from baycue.keep.check import check
from baycue.keep.compact import anybody_plays, compact, large_films, making_small
from baycue.keep.folders import SessionFolder
from baycue.keep.forget import belongings, forget
from baycue.keep.kept_session import KeptSession, utc_now
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.recover import sidecars
from baycue.keep.retention import delete_films, films
from baycue.keep.sidecar import read_sidecar
from baycue.keep.small_film import SMALL_CODEC, make_small, picture_times
from tests.conftest import number_in
from tests.test_keep_check import filmed_swings, flip, one, with_real_film

SWINGS = 3


@pytest.fixture
def place(tmp_path: Path) -> Place:
    found = Place(tmp_path / "kept")
    filmed_swings(found, swings=SWINGS)
    return found


def names(place: Place) -> list[str]:
    with SwingLog(place.log) as log:
        return large_films(log)


def rows(place: Place) -> list[pages.SwingRow]:
    with SwingLog(place.log) as log:
        return [r for s in pages.sessions(log) for r in pages.swings_of_session(log, s.id)]


def folder_of(place: Place) -> Path:
    return one(place, "session.json").parent


def test_pictures_and_times_are_the_same(place: Place) -> None:
    before = read_sidecar(one(place, "swing_002.json.gz"))
    assert before.film is not None
    old = folder_of(place) / before.film.file
    times = picture_times(old)
    with RecordingSource(old) as source:
        pictures = [frame.picture_bgr.astype(int) for frame in source]
    done = compact(place, names(place))
    assert (done.films, done.lines, done.stopped) == (SWINGS, [], False)
    after = read_sidecar(one(place, "swing_002.json.gz"))
    assert after.film is not None
    assert replace(after.film, codec="mjpeg", file=before.film.file, nbytes=0, crc32=0) == replace(
        before.film, nbytes=0, crc32=0
    )
    assert after.film.codec == SMALL_CODEC
    assert replace(after, film=None, scored=None) == replace(before, film=None, scored=None)
    small = folder_of(place) / after.film.file
    assert picture_times(small) == times
    with RecordingSource(small) as source:
        again = [frame.picture_bgr.astype(int) for frame in source]
    assert [number_in(picture.astype(np.uint8)) for picture in again] == list(range(20))
    off = [np.abs(a - b).mean() for a, b in zip(again, pictures, strict=True)]
    assert max(off) < 2.0


def test_the_log_follows_and_all_is_whole(place: Place) -> None:
    compact(place, names(place))
    assert names(place) == []
    found = rows(place)
    assert [row.film_codec for row in found] == [SMALL_CODEC] * SWINGS
    for row in found:
        assert row.film is not None
        assert place.inside(row.film).stat().st_size == row.film_bytes
    assert check(place, every_byte=True).wrong == []
    assert list(place.students.rglob("*.mov")) == []


def test_ended_it_leaves_the_film_and_goes_on_the_next_time(place: Place) -> None:
    answers = iter([True] * 45 + [False] * 99)  # 20 pictures a film, made and looked at again
    done = compact(place, names(place), lambda: next(answers))
    assert (done.films, done.stopped) == (1, True)
    assert check(place, every_byte=True).wrong == []
    assert compact(place, names(place)).films == SWINGS - 1
    assert check(place, every_byte=True).wrong == []


def test_a_damaged_film_is_left_as_it_is_and_costs_no_other(place: Place) -> None:
    bad = one(place, "swing_002.mov")
    flip(bad)
    data = bad.read_bytes()
    done = compact(place, names(place))
    assert done.films == SWINGS - 1
    (line,) = done.lines
    assert "swing_002.mov: damaged" in line
    assert bad.read_bytes() == data
    assert not bad.with_suffix(".mp4").exists()


def test_a_film_that_shows_fewer_pictures_is_not_taken(place: Place, tmp_path: Path) -> None:
    record = read_sidecar(one(place, "swing_001.json.gz"))
    assert record.film is not None
    more = replace(record.film, stamps_ns=(*record.film.stamps_ns, 9_000_000_000))
    with pytest.raises(KeptError, match="20 of 21 pictures"):
        make_small(one(place, "swing_001.mov"), more, tmp_path / "small.mp4")
    assert not list(tmp_path.glob("small.mp4*"))


def sidecar_left_behind(place: Place) -> None:
    """Killed when the small film had its name, and nothing told of it."""
    record = read_sidecar(one(place, "swing_001.json.gz"))
    assert record.film is not None
    path = one(place, "swing_001.mov")
    make_small(path, record.film, path.with_suffix(".mp4"))


def half_written(place: Place) -> None:
    """Killed while the small film was written."""
    one(place, "swing_001.mov").with_suffix(".mp4.partial").write_bytes(b"half")


def old_one_left(place: Place) -> None:
    """Killed when the sidecar named the small film, before the old one had gone."""
    path = one(place, "swing_001.mov")
    data, row = path.read_bytes(), rows(place)[0]
    compact(place, names(place)[:1])
    path.write_bytes(data)
    with SwingLog(place.log) as log, log.change() as connection:
        connection.execute(
            "UPDATE swings SET film = ?, film_codec = 'mjpeg' WHERE id = ?", (row.film, row.id)
        )


HARM = pytest.mark.parametrize("harm", [sidecar_left_behind, half_written, old_one_left])


@HARM
def test_what_a_kill_left_half_done_is_told_and_done(
    harm: Callable[[Place], None], place: Place
) -> None:
    harm(place)
    wrong = check(place, every_byte=True).wrong
    assert len(wrong) == 1
    assert "left over from making a film small" in wrong[0]
    compact(place, names(place))
    assert check(place, every_byte=True).wrong == []
    assert names(place) == []
    assert sorted(p.suffix for p in folder_of(place).glob("swing_001.m*")) == [".mp4"]


@HARM
def test_a_film_that_may_go_goes_whole_after_a_kill(
    harm: Callable[[Place], None], place: Place
) -> None:
    harm(place)
    with SwingLog(place.log) as log:
        delete_films(log, place, films(log))
    assert list(folder_of(place).glob("*.m*")) == []


def test_nothing_is_made_small_while_somebody_plays(place: Place) -> None:
    assert not anybody_plays(place)
    times = iter([0.0, 0.1, 0.6, 0.7, 1.2])
    calm = Calm(place, lambda: next(times))
    assert calm()
    playing = SessionFolder(place, "Alder", "a camera", utc_now())
    assert not calm(), "looked again after half a second"
    assert not calm()
    playing.close()
    assert calm()


def test_two_programs_never_make_films_small_at_once(
    place: Place, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(compact_room, "_PATIENCE_S", 0.1)
    with making_small(place):
        with pytest.raises(KeptError, match="another program"):
            compact(place, names(place))
        with pytest.raises(KeptError, match="another program"):
            forget(place, belongings(place, "Heron"))
        with SwingLog(place.log) as log, pytest.raises(KeptError, match="another program"):
            delete_films(log, place, films(log))
    assert check(place, every_byte=True).wrong == []


def test_a_session_that_goes_on_is_left_alone(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    place.folder.mkdir()
    session = KeptSession(place, "Heron", "a camera")
    session.keep(with_real_film(session, 1, "Heron"))
    assert names(place) == []
    session.close()
    assert len(names(place)) == 1


def test_on_a_full_disk_the_film_stays_as_it_was_and_it_is_told(small_disk: Path) -> None:
    place = Place(small_disk / "kept")
    filmed_swings(place, swings=1)
    large, filler = names(place), small_disk / "filler"
    with suppress(OSError), filler.open("wb", buffering=0) as file:
        while True:
            file.write(b"\0" * 512)
    done = compact(place, large)
    assert done.films == 0
    (line,) = done.lines
    assert "No space left" in line
    filler.unlink()
    assert check(place, every_byte=True).wrong == []
    assert compact(place, names(place)).films == 1


def test_a_small_films_student_is_deleted_as_well(place: Place) -> None:
    compact(place, names(place))
    forget(place, belongings(place, "Heron"))
    assert list(place.students.rglob("*.mp4")) == []
    assert rows(place) == []


KILLS = 25


@pytest.fixture
def quick_folder(tmp_path: Path) -> Iterator[Path]:
    memory = Path("/dev/shm")
    with TemporaryDirectory(dir=memory if memory.is_dir() else tmp_path) as folder:
        yield Path(folder)


@pytest.mark.skipif(not hasattr(os, "fork"), reason="kills forked processes")
def test_killed_again_and_again_every_swing_has_one_whole_film(quick_folder: Path) -> None:
    place = Place(quick_folder / "kept")
    filmed_swings(place, swings=12)
    subprocess.run(
        [sys.executable, "-m", "tests.killed_compactor", str(place.folder), str(KILLS), "5"],
        check=True,
    )
    folder = folder_of(place)
    for path in sidecars(folder):
        film = read_sidecar(path).film
        assert film is not None
        assert (folder / film.file).stat().st_size == film.nbytes
        assert len(picture_times(folder / film.file)) == 20
    compact(place, names(place))
    assert check(place, every_byte=True).wrong == []
    assert [row.film_codec for row in rows(place)] == [SMALL_CODEC] * 12
