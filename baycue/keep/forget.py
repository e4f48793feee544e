"""Deleting all that is kept of a student, so that no file holds the name any more."""

import shutil
from dataclasses import dataclass
from pathlib import Path

from baycue.errors import InUseError, KeptError, LogError, OutputError, OutsideError
from baycue.keep.check import log_fault
from baycue.keep.compact import films_held
from baycue.keep.folders import IN_USE
from baycue.keep.log import SwingLog
from baycue.keep.pages import student_id, student_names
from baycue.keep.place import Place
from baycue.keep.recover import is_going_on
from baycue.plan.words import guess

_ROWS = ("answers", "notes", "swings", "sessions", "plans")


@dataclass(frozen=True, slots=True)
class Belongings:
    """What is kept of a student; ``id``: None if the log knows nothing of them."""

    student: str
    id: int | None
    folder: Path
    files: int
    nbytes: int
    swings: int


def belongings(place: Place, student: str) -> Belongings:
    """What would be deleted.

    KeptError if nothing is kept of that name, with the nearest that there is, or if the log is
    damaged, for then the name cannot be taken out of it.
    """
    fault = log_fault(place)
    if fault:
        raise LogError(f"{fault}; nothing was deleted")
    folder = place.student(student)
    with SwingLog(place.log) as log:
        found, names = student_id(log, student), student_names(log)
        swings = log.rows("SELECT count(*) FROM swings WHERE student_id = ?", found)[0][0]
    if found is None and not folder.exists():
        raise KeptError(f'{place.folder}: nothing is kept of "{student}"{guess(student, names)}')
    files = [path for path in folder.rglob("*") if path.is_file()]
    return Belongings(
        student, found, folder, len(files), sum(p.stat().st_size for p in files), swings
    )


def forget(place: Place, kept: Belongings) -> None:
    """Delete it: the files first, then the rows, then what is left of them in the log's file.

    Damaged logs that were set aside go too, for the name may be in them.  Cut off in between, it
    can be done again.  InUseError while a session of the student goes on, or another program
    changes films and does not let go of them.
    """
    if any(is_going_on(marker) for marker in kept.folder.glob(f"*/{IN_USE}")):
        raise InUseError(f"a session of {kept.student} is going on; end it first")
    with films_held(place):
        _delete_folder(place, kept.folder)
    for aside in place.folder.glob(f"{place.log.stem}.damaged-*"):
        aside.unlink()
    with SwingLog(place.log) as log:
        with log.change() as connection:
            for table in _ROWS:
                connection.execute(f"DELETE FROM {table} WHERE student_id = ?", (kept.id,))
            connection.execute("DELETE FROM students WHERE id = ?", (kept.id,))
        scrub(log)


def scrub(log: SwingLog) -> None:
    """Leave nothing of deleted rows in the log's files; KeptError if another program is reading."""
    log.rows("VACUUM")
    (busy, _, _) = log.rows("PRAGMA wal_checkpoint(TRUNCATE)")[0]
    if busy:
        raise InUseError(
            f"{log.path}: another program reads the log; what was deleted is out of its files only "
            "when that program is closed and `baycue log check` has run"
        )


def _delete_folder(place: Place, folder: Path) -> None:
    """Only ever a folder of ours, directly among the students', and no link to elsewhere."""
    assert folder.parent == place.students
    if folder.is_symlink():
        raise OutsideError(f"{folder}: is a link to another place and is not deleted")
    if not folder.exists():
        return
    try:
        shutil.rmtree(folder)
    except OSError as error:
        raise OutputError(f"{folder}: cannot be deleted ({error.strerror})") from None
