"""Kept swings to be seen again: by their sidecars, and as what another may be compared with."""

from collections.abc import Collection
from functools import partial
from pathlib import Path

from baycue.keep.kept_film import see_kept
from baycue.keep.log import SwingLog
from baycue.keep.pages import SwingRow, films_before, student_id
from baycue.keep.place import Place
from baycue.replay.film import SwingFilm, film_of_record
from baycue.replay.others import Other

_LOOKED_THROUGH = 200
"""Of a student's newest swings, for those by one plan."""


def film_of_sidecar(path: Path) -> SwingFilm:
    """A kept swing; KeptError if it cannot be read or has no film, RecordingError if damaged."""
    return see_kept(path, film_of_record)


def kept_other(place: Place, row: SwingRow) -> Other:
    """A swing of the log, read when it is wanted."""
    session = row.session.rpartition("/")[2]
    name = f"{session}, swing {row.number}, {row.outcome}"
    return Other(name, partial(_film, place, row.sidecar))


def earlier_by_plan(
    place: Place, student: str, plan: str, going_on: Collection[Path] = (), number: int = 0
) -> tuple[Other, ...]:
    """A student's kept swings by one plan, the newest first; KeptError for a log not readable.

    ``going_on``: folders of the session that goes on, in which swing ``number`` is the one they
    are compared with: only what came before it is earlier.
    """
    if not place.log.exists():
        return ()
    with SwingLog(place.log) as log:
        row_id = student_id(log, student)
        rows = films_before(log, row_id, limit=_LOOKED_THROUGH) if row_id is not None else ()
    return tuple(
        kept_other(place, row)
        for row in rows
        if row.plan == plan and (place.folder / row.session not in going_on or row.number < number)
    )


def _film(place: Place, sidecar: str) -> SwingFilm:
    return film_of_sidecar(place.inside(sidecar))
