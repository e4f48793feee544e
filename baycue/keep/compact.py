"""Making kept films small, one by one, so that a kill at any moment leaves each of them whole.

A film's place is taken in four steps: the small film is written and looked at beside the old one,
the sidecar names the small one, the old one goes, the log follows.  The sidecar tells which of two
films counts; whatever a kill left half done is done, or cleared away, the next time.
"""

import time
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from pathlib import Path
from typing import IO

from baycue.counted import counted
from baycue.errors import InUseError, OutputError
from baycue.keep.file_lock import lock
from baycue.keep.film import CODEC
from baycue.keep.film_check import check_film
from baycue.keep.folders import IN_USE
from baycue.keep.log import SwingLog
from baycue.keep.place import FILM_SUFFIX, PARTIAL, SIDECAR_SUFFIX, SMALL_FILM_SUFFIX, Place
from baycue.keep.record import Film
from baycue.keep.recover import is_going_on
from baycue.keep.sidecar import packed, read_sidecar
from baycue.keep.small_film import GoOn, make_small
from baycue.keep.whole import replace_whole

LOCK, WANTED = "making_small", "films_wanted"
_PATIENCE_S, _LOOK_S = 10.0, 0.05
"""As long as for the log, so that who makes films small meanwhile can let go of them."""
_LARGE = """
SELECT w.sidecar FROM swings AS w JOIN sessions AS s ON s.id = w.session_id
WHERE w.film IS NOT NULL AND w.film_codec = ? AND s.ended_how IS NOT NULL ORDER BY w.id
"""

OnFilm = Callable[[int], None]


@dataclass(slots=True)
class Compacted:
    """How many films were made small, and the bytes before and after; ``lines``: what was not."""

    films: int = 0
    before_bytes: int = 0
    after_bytes: int = 0
    stopped: bool = False
    lines: list[str] = field(default_factory=list)


def how_small(done: Compacted, of_all: int | None = None) -> str:
    """What was gained, in words."""
    before, after = done.before_bytes / 1e6, done.after_bytes / 1e6
    which = (
        counted(done.films, "film")
        if of_all is None
        else f"{done.films} of {counted(of_all, 'film')}"
    )
    return f"{which} made small: {before:.1f} MB are {after:.1f} MB now"


def large_films(log: SwingLog, sessions: Sequence[str] | None = None) -> list[str]:
    """The sidecars, by name, of films as they were taken, of sessions that are over.

    ``sessions``: only these, by their names in the log; None for all.
    """
    names = [str(row["sidecar"]) for row in log.rows(_LARGE, CODEC)]
    return [n for n in names if sessions is None or n.rpartition("/")[0] in sessions]


def anybody_plays(place: Place) -> bool:
    """Whether a session is going on: then nothing is made small, for a verdict may be due."""
    return any(is_going_on(marker) for marker in place.students.glob(f"*/*/{IN_USE}"))


@contextmanager
def making_small(place: Place, patience_s: float = 0.0) -> Iterator[None]:
    """Be the only program that changes films; InUseError if another one is at it for so long."""
    with (place.folder / LOCK).open("a+b") as file:
        _take(file, place, patience_s)
        yield


@contextmanager
def films_held(place: Place) -> Iterator[None]:
    """The same, for what cannot wait: a session that makes films small meanwhile lets go of them.

    InUseError if another program does not.
    """
    with (place.folder / WANTED).open("a+b") as wanted:
        _take(wanted, place, _PATIENCE_S)
        with making_small(place, _PATIENCE_S):
            yield


def _take(file: IO[bytes], place: Place, patience_s: float) -> None:
    until_s = time.monotonic() + patience_s
    while not lock(file):
        if time.monotonic() >= until_s:
            raise InUseError(f"{place.folder}: another program is making films small; wait for it")
        time.sleep(_LOOK_S)


def films_wanted(place: Place) -> bool:
    """Whether somebody waits for ``films_held``."""
    return is_going_on(place.folder / WANTED)


def compact(
    place: Place, sidecars: Sequence[str], go_on: GoOn = lambda: True, on_film: OnFilm | None = None
) -> Compacted:
    """Make these swings' films small; ``go_on``, asked before each picture, may end it.

    One in trouble is told of, left as it is, and costs no other.  InUseError if another program is
    at it.
    """
    done = Compacted()
    with making_small(place):
        for count, name in enumerate(sidecars, 1):
            try:
                if not _made_small(place, name, go_on, done):
                    done.stopped = True
                    break
            except (OutputError, OSError) as error:
                done.lines.append(str(error))
            if on_film:
                on_film(count)
    return done


def left_over(folder: Path, film: Film | None, stem: str) -> list[Path]:
    """What a swing's film was made small from or into, beside the film that counts."""
    if film is None:
        return []
    names = (stem + FILM_SUFFIX, stem + SMALL_FILM_SUFFIX, stem + SMALL_FILM_SUFFIX + PARTIAL)
    return [folder / name for name in names if name != film.file and (folder / name).exists()]


def _made_small(place: Place, name: str, go_on: GoOn, done: Compacted) -> bool:
    """False if it was ended."""
    sidecar = place.inside(name)
    record = read_sidecar(sidecar)
    old, folder = record.film, sidecar.parent
    if old is None or (not (folder / old.file).exists() and _was_let_go(place, name)):
        return True
    if old.codec == CODEC:
        check_film(folder / old.file, old, every_byte=True)
        _clear(sidecar, old)
        small = (folder / old.file).with_suffix(SMALL_FILM_SUFFIX)
        film = make_small(folder / old.file, old, small, go_on)
        if film is None:
            return False
        replace_whole(sidecar, packed(replace(record, film=film)))
        done.films += 1
        done.before_bytes += old.nbytes
        done.after_bytes += film.nbytes
        old = film
    check_film(folder / old.file, old)
    _clear(sidecar, old)
    _tell_log(place, name, old)
    return True


def _clear(sidecar: Path, film: Film) -> None:
    """Of two films leave the one that the sidecar names, which has just been looked at."""
    stem = sidecar.name.removesuffix(SIDECAR_SUFFIX)
    for path in left_over(sidecar.parent, film, stem):
        path.unlink()


def _was_let_go(place: Place, name: str) -> bool:
    """Whether its film was deleted on purpose, since somebody asked for it to be made small."""
    with SwingLog(place.log) as log:
        rows = log.rows("SELECT film FROM swings WHERE sidecar = ?", name)
    return bool(rows) and rows[0]["film"] is None


def _tell_log(place: Place, name: str, film: Film) -> None:
    where = name.rpartition("/")[0]
    with SwingLog(place.log) as log, log.change() as connection:
        connection.execute(
            "UPDATE swings SET film = ?, film_bytes = ?, film_codec = ? "
            "WHERE sidecar = ? AND film IS NOT NULL",
            (f"{where}/{film.file}", film.nbytes, film.codec, name),
        )
