"""What the coach says of a session: a file for each note, beside the swings, and its row."""

import json
from collections.abc import Iterator
from dataclasses import asdict, dataclass
from itertools import count
from pathlib import Path, PurePosixPath

from baycue.errors import KeptError
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.whole import write_whole

LONGEST = 4000
"""Characters."""
_FORMAT, _VERSION = "baycue note", 1


@dataclass(frozen=True, slots=True)
class Note:
    """``at_utc``: when it was written, ISO 8601."""

    at_utc: str
    text: str


def write_note(place: Place, folder: str, note: Note) -> str:
    """Keep a note in a session's folder, by its name in the log; the file's name in the log.

    ValueError for an empty note or one of over 4000 characters; OutputError if it cannot be kept.
    """
    if not note.text.strip() or len(note.text) > LONGEST:
        raise ValueError(f"a note has 1 to {LONGEST} characters; this one has {len(note.text)}")
    session = place.inside(folder)
    if not session.is_dir():
        raise KeptError(f"{session}: the session's folder is gone")
    document = {"format": _FORMAT, "version": _VERSION, **asdict(note)}
    data = (json.dumps(document, ensure_ascii=False, indent=2) + "\n").encode()
    path = next(p for n in count(1) if not (p := session / f"note_{n:03d}.json").exists())
    write_whole(path, data)
    return str(PurePosixPath(folder) / path.name)


def read_note(path: Path) -> Note:
    """A kept note; KeptError if it is damaged."""
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        if document["format"] != _FORMAT or document["version"] > _VERSION:
            raise KeptError(f"{path}: is no note, or of a newer version")
        return Note(str(document["at_utc"]), str(document["text"]))
    except OSError as error:
        raise KeptError(f"{path}: cannot be read ({error.strerror})") from None
    except (ValueError, KeyError, TypeError):
        raise KeptError(f"{path}: damaged") from None


def note_files(session: Path) -> Iterator[Path]:
    """A session's notes in order."""
    yield from sorted(session.glob("note_*.json"))


def add_note(log: SwingLog, session_folder: str, file: str, note: Note) -> bool:
    """Put a note into the log; False if it is there, or the session is not."""
    with log.change() as connection:
        added = connection.execute(
            "INSERT INTO notes (session_id, student_id, at_utc, text, file) "
            "SELECT id, student_id, ?, ?, ? FROM sessions WHERE folder = ? ON CONFLICT DO NOTHING",
            (note.at_utc, note.text, file, session_folder),
        )
        return added.rowcount > 0
