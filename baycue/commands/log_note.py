"""What the coach says of a session."""

from pathlib import Path

from rich.console import Console

from baycue.commands.log_show import kept_place, say
from baycue.errors import BaycueError, KeptError
from baycue.keep.folders import utc
from baycue.keep.kept_session import utc_now
from baycue.keep.log import SwingLog
from baycue.keep.notes import Note, add_note, write_note


def run_note(folder: Path | None, session: int, text: str, console: Console) -> None:
    """Keep it: the file first, then its row; BaycueError for no such session or an empty note."""
    place = kept_place(folder)
    with SwingLog(place.log) as log:
        found = log.rows("SELECT folder FROM sessions WHERE id = ?", session)
        if not found:
            raise KeptError(f"{place.log}: there is no session {session}")
        where, note = str(found[0]["folder"]), Note(utc(utc_now()), text.strip())
        try:
            file = write_note(place, where, note)
        except ValueError as error:
            raise BaycueError(str(error)) from None
        add_note(log, where, file, note)
    say(console, f"kept as {place.folder / file}")
