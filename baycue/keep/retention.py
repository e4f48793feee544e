"""Which films may go, by a rule, when somebody says so.  Sidecars and rows always stay."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from pathlib import Path

from baycue.errors import OutputError, OutsideError
from baycue.keep.compact import films_held
from baycue.keep.folders import utc
from baycue.keep.log import SwingLog
from baycue.keep.place import FILM_SUFFIX, PARTIAL, SMALL_FILM_SUFFIX, Place


@dataclass(frozen=True, slots=True)
class Rule:
    """Films older than so many days may go, and the oldest beyond so many bytes; None: no limit."""

    days: float | None = None
    most_bytes: int | None = None


@dataclass(frozen=True, slots=True)
class KeptFilm:
    """A film in the log."""

    swing_id: int
    film: str
    at_utc: str
    nbytes: int


def films(log: SwingLog) -> tuple[KeptFilm, ...]:
    """Every film, the oldest first."""
    rows = log.each(
        "SELECT id AS swing_id, film, at_utc, film_bytes AS nbytes FROM swings "
        "WHERE film IS NOT NULL ORDER BY at_utc"
    )
    return tuple(KeptFilm(**row) for row in rows)


def may_go(kept: Sequence[KeptFilm], rule: Rule, now: datetime) -> tuple[KeptFilm, ...]:
    """The films, the oldest first, that the rule lets go."""
    going = []
    before = utc(now - timedelta(days=rule.days)) if rule.days is not None else ""
    total = sum(film.nbytes for film in kept)
    for film in kept:
        too_much = rule.most_bytes is not None and total > rule.most_bytes
        if film.at_utc < before or too_much:
            going.append(film)
            total -= film.nbytes
    return tuple(going)


def delete_films(log: SwingLog, place: Place, going: Sequence[KeptFilm]) -> None:
    """Delete them one by one, so that one in trouble leaves the rest; OutputError at the first.

    InUseError while another program makes films small and does not let go of them.
    """
    with films_held(place):
        for film in going:
            _delete_film(log, place, film)


def _delete_film(log: SwingLog, place: Place, film: KeptFilm) -> None:
    path = _film_inside(place, film.film)
    try:
        # After a kill there may be two, or a part of one.
        for suffix in (FILM_SUFFIX, SMALL_FILM_SUFFIX, SMALL_FILM_SUFFIX + PARTIAL):
            path.with_suffix(suffix).unlink(missing_ok=True)
    except OSError as error:
        raise OutputError(f"{path}: cannot be deleted ({error.strerror})") from None
    with log.change() as connection:
        connection.execute(
            "UPDATE swings SET film = NULL, film_bytes = NULL, film_codec = NULL WHERE id = ?",
            (film.swing_id,),
        )


def _film_inside(place: Place, named: str) -> Path:
    """Only ever a film, in a student's folder, through no link to elsewhere; else OutsideError."""
    path = place.inside(named)
    within = path.parent.resolve().is_relative_to(place.students.resolve())
    if path.suffix not in (FILM_SUFFIX, SMALL_FILM_SUFFIX) or not within:
        raise OutsideError(f"{path}: is no film of ours and is not deleted; run `baycue log check`")
    return path
