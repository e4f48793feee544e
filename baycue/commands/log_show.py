"""The log on a terminal and in files for other programs."""

from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.commands.folders import refuse_unwritable
from baycue.errors import BaycueError, KeptError
from baycue.keep import pages
from baycue.keep.export import export_csv, export_jsonl
from baycue.keep.log import SwingLog
from baycue.keep.place import Place, default_folder
from baycue.plan.words import guess

_HEADINGS = ("session", "student", "began (UTC)", "swings", "pass", "fail", "close", "ended")
_WRITERS = {".csv": (export_csv, "answers"), ".jsonl": (export_jsonl, "swings")}


def kept_place(folder: Path | None) -> Place:
    """Where swings are kept."""
    return Place((folder or default_folder()).absolute())


def student_named(log: SwingLog, name: str | None) -> int | None:
    """A student's row; None for no name; KeptError, with the nearest, for an unknown one."""
    if name is None:
        return None
    found = pages.student_id(log, name)
    if found is None:
        hint = guess(name, pages.student_names(log))
        raise KeptError(f'{log.path}: nothing is kept of "{name}"{hint}')
    return found


def run_sessions(folder: Path | None, student: str | None, last: int, console: Console) -> None:
    """A table of sessions."""
    with SwingLog(kept_place(folder).log) as log:
        rows = pages.sessions(log, student_named(log, student), last)
    table = Table(box=None, pad_edge=False)
    for heading in (
        "session",
        "student",
        "began (UTC)",
        "swings",
        "pass",
        "fail",
        "close",
        "ended",
    ):
        table.add_column(heading)
    for row in rows:
        counts = (str(n) for n in (row.swings, row.passes, row.fails, row.close))
        began = row.started_utc[:16].replace("T", " ")
        table.add_row(str(row.id), row.student, began, *counts, row.ended_how or "goes on")
    console.print(table)


def run_swings(folder: Path | None, session: int | None, console: Console) -> None:
    """A session's swings and their answers."""
    place = kept_place(folder)
    with SwingLog(place.log) as log:
        number = session if session is not None else _newest(log)
        swings = pages.swings_of_session(log, number)
        if not swings:
            raise KeptError(f"{place.log}: there is no session {number}, or no swing in it")
        say(console, f"{swings[0].student}, {place.folder / swings[0].session}")
        for note in pages.notes_of_session(log, number):
            say(console, f"the coach, {note.at_utc[:10]}: {note.text}")
        for swing in swings:
            _tell(log, swing, console)


def run_export(folder: Path | None, file: Path, student: str | None, console: Console) -> None:
    """Write a file of the kind that its name tells."""
    if file.suffix.lower() not in _WRITERS:
        raise BaycueError(f'{file}: "{file.suffix}" is no kind of export; allowed: .csv, .jsonl')
    refuse_unwritable(file)
    write, of_what = _WRITERS[file.suffix.lower()]
    with SwingLog(kept_place(folder).log) as log:
        count = write(log, file, student_named(log, student))
    say(console, f"{count} {of_what} written to {file}")


def _newest(log: SwingLog) -> int:
    rows = pages.sessions(log, limit=1)
    if not rows:
        raise KeptError(f"{log.path}: no session has been kept yet")
    return rows[0].id


def _tell(log: SwingLog, swing: pages.SwingRow, console: Console) -> None:
    film = "" if swing.film else " (no film)"
    go = f", {swing.go.words}" if swing.go else ""
    say(console, f"swing {swing.number}: {(swing.outcome or 'not judged').upper()}{go}{film}")
    if swing.outcome is None:
        say(console, f"    {swing.reason}")
    for answer in pages.answers(log, swing.id):
        watched = " (watched only)" if answer.watch_only else ""
        say(console, f"    {answer.outcome}: {answer.reason}{watched}")


def say(console: Console, line: str) -> None:
    """One line stays one line, however wide the terminal."""
    console.print(line, soft_wrap=True, highlight=False, markup=False)
