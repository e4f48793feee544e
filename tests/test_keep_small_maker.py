"""Films made small while a session goes on: only when nobody is judged, and none is ever lost."""

import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest

from baycue.errors import FilmGoneError, InUseError
from baycue.keep.check import check
from baycue.keep.compact import compact, large_films
from baycue.keep.folders import read_facts
from baycue.keep.forget import belongings, forget
from baycue.keep.kept_film import see_kept
from baycue.keep.log import SwingLog
from baycue.keep.pages import swings_of_session
from baycue.keep.place import Place
from baycue.keep.record import SwingRecord
from baycue.keep.recover import recover
from baycue.keep.retention import delete_films, films
from baycue.keep.small_film import picture_times
from baycue.keep.small_maker import HAS_DIED
from tests.making_small import PICTURES, Going, going_on
from tests.patience import wait_until
from tests.test_keep_check import filmed_swings, flip, one

LINUX = pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="looks into /proc")


@pytest.fixture
def going(tmp_path: Path) -> Iterator[Going]:
    made = going_on(tmp_path / "kept")
    yield made
    made.maker.close()
    made.session.close()


def ended(going: Going) -> None:
    """As a session ends: what is left is made small, and then all is whole."""
    going.maker.close()
    going.session.close()
    finished(going.place)


def finished(place: Place) -> None:
    with SwingLog(place.log) as log:
        names = large_films(log)
    assert compact(place, names).lines == []
    assert check(place, every_byte=True).wrong == []
    assert len(list(place.students.rglob("*.mp4"))) == 2
    assert list(place.students.rglob("*.mov")) + list(place.students.rglob("*.partial")) == []


def lives(process_id: int) -> bool:
    """Whether any thread of it does; one that has ended and was not asked after does not."""
    for stat in Path(f"/proc/{process_id}/task").glob("*/stat"):
        with suppress(OSError):
            if stat.read_text(encoding="utf-8").rpartition(")")[2].split()[0] not in "ZX":
                return True
    return False


def test_it_stands_still_while_somebody_is_judged_and_then_goes_on(going: Going) -> None:
    going.begin()
    size = going.partial(1).stat().st_size
    assert going.small() == [False, False]
    assert check(going.place, every_byte=True).wrong == [], "the film is whole meanwhile"
    assert going.partial(1).stat().st_size - size < 100_000
    going.maker.let(True)
    wait_until(lambda: going.small() == [True, True])
    wait_until(lambda: going.maker.made.films == 2)
    assert len(picture_times(one(going.place, "swing_001.mp4"))) == PICTURES
    assert check(going.place, every_byte=True).wrong == []
    with SwingLog(going.place.log) as log:
        assert [row.film_codec for row in swings_of_session(log, 1)] == ["h264", "h264"]
    assert going.maker.made.after_bytes < going.maker.made.before_bytes
    assert going.told() == []


def test_killed_in_the_middle_films_stay_and_it_is_said_once(going: Going) -> None:
    os.kill(going.begin(), signal.SIGKILL)
    wait_until(lambda: going.told() == [HAS_DIED])
    assert going.partial(1).exists()
    going.maker.let(True)
    going.maker.add(going.name(2))
    assert going.small() == [False, False]
    ended(going)
    assert going.told() == [HAS_DIED]


def test_the_end_of_the_session_lets_go_of_it_at_once(going: Going) -> None:
    process_id = going.begin()
    going.maker.close()
    assert not lives(process_id)
    assert not going.partial(1).exists(), "it was asked to, not killed"
    assert going.small() == [False, False]
    assert going.told() == []
    ended(going)


@LINUX
def test_it_does_not_outlive_a_session_that_is_killed_which_goes_on_whole(tmp_path: Path) -> None:
    folder = tmp_path / "kept"
    command = [sys.executable, "-m", "tests.making_small", str(folder)]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as session:
        assert session.stdout is not None
        process_id = int(session.stdout.readline())
        assert lives(process_id)
        session.kill()
    wait_until(lambda: not lives(process_id))
    place = Place(folder)
    found = recover(place)
    assert [told.partition(": ")[2] for told in found.lines] == [
        "the session was interrupted; 0 swings that were not whole yet were recovered"
    ]
    assert read_facts(found.folders[0][1], place).student == "Heron"
    with SwingLog(place.log) as log:
        assert [row.film_codec for row in swings_of_session(log, 1)] == ["mjpeg", "mjpeg"]
    finished(place)


def test_films_and_students_may_go_while_a_film_is_made_small(going: Going) -> None:
    filmed_swings(going.place, "Alder", swings=1)
    going.begin()
    with pytest.raises(InUseError, match="a session of Heron is going on"):
        forget(going.place, belongings(going.place, "Heron"))
    forget(going.place, belongings(going.place, "Alder"))
    assert not going.place.student("Alder").exists()
    with SwingLog(going.place.log) as log:
        delete_films(log, going.place, films(log))
    assert list(going.session.folder.glob("*.m*")) == []
    going.maker.let(True)
    going.maker.close()
    assert going.told() == []
    assert check(going.place, every_byte=True).wrong == []


def test_on_a_low_disk_none_is_begun_and_a_damaged_one_is_told_once_and_costs_no_other(
    going: Going,
) -> None:
    going.disk.free = 500_000_000  # too little: none is begun
    flip(one(going.place, "swing_001.mov"))
    going.maker.let(True)
    for number in (1, 2, 1):
        going.maker.add(going.name(number))
    wait_until(lambda: going.maker.process_id is not None)
    assert (going.small(), going.told()) == ([False, False], [])
    going.disk.free = 2 << 30
    wait_until(lambda: len(going.maker.made.lines) == 2)
    assert going.small() == [False, True]
    (line,) = going.told()
    assert "swing_001.mov: damaged" in line
    assert line.endswith("such films stay large until the session is over")


def test_who_looks_for_a_film_meanwhile_finds_the_small_one(going: Going) -> None:
    sidecar, looks = going.sidecar(2), list[str]()

    def look(record: SwingRecord, film: Path) -> int:
        looks.append(film.name)
        if len(looks) == 1:  # at the worst moment
            compact(going.place, [going.name(2)])
        if not film.exists():
            raise FilmGoneError(f"{film}: is gone")
        return film.stat().st_size

    assert see_kept(sidecar, look) == one(going.place, "swing_002.mp4").stat().st_size
    assert looks == ["swing_002.mov", "swing_002.mp4"]
    one(going.place, "swing_002.mp4").unlink()
    with pytest.raises(FilmGoneError):
        see_kept(sidecar, look)
