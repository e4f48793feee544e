"""Deleting what was kept, always after asking."""

import sys
from datetime import UTC, datetime
from pathlib import Path

import typer
from rich.console import Console

from baycue.commands.log_show import kept_place, say
from baycue.counted import counted
from baycue.errors import BaycueError
from baycue.keep.forget import belongings, forget
from baycue.keep.log import SwingLog
from baycue.keep.retention import Rule, delete_films, films, may_go


def run_delete_student(folder: Path | None, student: str, yes: bool, console: Console) -> None:
    """Tell what there is, ask, delete."""
    place = kept_place(folder)
    kept = belongings(place, student)
    say(
        console,
        f"{student}: {counted(kept.swings, 'swing')} in the log, {counted(kept.files, 'file')}, "
        f"{kept.nbytes / 1e6:.1f} MB, in {kept.folder}",
    )
    if not agreed(f"Delete all of it for good? {student} cannot be got back.", yes):
        say(console, "nothing was deleted")
        return
    forget(place, kept)
    say(
        console,
        f"All that was kept of {student} is deleted. Copies, exports and backups elsewhere are "
        "yours to delete.",
    )


def run_retention(
    folder: Path | None,
    days: float | None,
    gigabytes: float | None,
    yes: bool,
    console: Console,
) -> None:
    """Tell what films there are and which may go, ask, delete."""
    place = kept_place(folder)
    with SwingLog(place.log) as log:
        kept = films(log)
        total = sum(film.nbytes for film in kept)
        say(console, f"{counted(len(kept), 'film')}, {total / 1e9:.2f} GB, in {place.folder}")
        most = None if gigabytes is None else round(gigabytes * 1e9)
        going = may_go(kept, Rule(days, most), datetime.now(UTC))
        if not going:
            say(console, "No film need go. Give --days or --gigabytes for another rule.")
            return
        size = sum(film.nbytes for film in going)
        how_many = counted(len(going), "film")
        say(console, f"{going[0].at_utc[:10]} to {going[-1].at_utc[:10]}: {how_many}")
        these = "this film" if len(going) == 1 else f"these {how_many}"
        if not agreed(f"Delete {these} ({size / 1e9:.2f} GB) for good?", yes):
            say(console, "nothing was deleted")
            return
        delete_films(log, place, going)
    say(console, f"{counted(len(going), 'film')} deleted; what was found in those swings stays")


def agreed(question: str, yes: bool) -> bool:
    """Whether somebody says so; BaycueError where nobody can be asked."""
    if yes:
        return True
    if not sys.stdin.isatty():
        raise BaycueError("nobody can be asked here, so nothing was deleted; --yes says yes")
    return typer.confirm(question, default=False)
