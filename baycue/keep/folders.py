"""A session's folder: made under a name of its own, and held while the session goes on."""

import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass
from datetime import datetime
from itertools import count
from pathlib import Path
from typing import IO

from baycue.errors import DamagedKeptError, NewerKeptError, OutputError, OutsideError
from baycue.keep.file_lock import lock
from baycue.keep.names import readable
from baycue.keep.place import Place
from baycue.keep.whole import write_whole

SESSION_FILE, IN_USE = "session.json", "in_use"
_FORMAT, _VERSION = "baycue session", 1


@dataclass(frozen=True, slots=True)
class SessionFacts:
    """What is known of a session from its start; ``folder``: its name in the log."""

    student: str
    folder: str
    source: str
    started_utc: str


class SessionFolder:
    """A session's new folder, held by this process until it is closed or the process ends.

    ``goes_on``: a session that was cut off, whose folder is taken instead.

    Whether a session goes on is told by a lock of the operating system, which ends with the
    process however that ends.  OutputError where nothing can be written.
    """

    def __init__(
        self,
        place: Place,
        student: str,
        source: str,
        now: datetime,
        goes_on: SessionFacts | None = None,
    ) -> None:
        try:
            if goes_on is None:
                self.path = _new_folder(_unlinked(place.student(student)), now)
                folder = self.path.relative_to(place.folder).as_posix()
                self.facts = SessionFacts(student, folder, readable(source), utc(now))
                _write_facts(self.path, self.facts)
            else:
                self.path, self.facts = place.inside(goes_on.folder), goes_on
            self._held: IO[bytes] | None = (self.path / IN_USE).open("xb")
        except OSError as error:
            raise OutputError(
                f"{place.folder}: nothing can be kept there ({error.strerror}); name another "
                "folder with --keep"
            ) from None
        lock(self._held)

    def close(self, done: bool = True) -> None:
        """Let go; unless ``done``, the next start looks after what is left to do."""
        if self._held is None:
            return
        self._held.close()
        self._held = None
        if done:
            with suppress(OSError):
                (self.path / IN_USE).unlink()


def utc(now: datetime) -> str:
    """ISO 8601 in UTC, milliseconds."""
    return now.isoformat(timespec="milliseconds").replace("+00:00", "Z")


def read_facts(folder: Path, place: Place) -> SessionFacts:
    """A session's facts from its folder; KeptError if they are damaged or missing."""
    path = folder / SESSION_FILE
    try:
        document = json.loads(path.read_text(encoding="utf-8"))
        if document["format"] != _FORMAT or document["version"] > _VERSION:
            raise NewerKeptError(f"{path}: is no session's file, or of a newer version")
        where = folder.relative_to(place.folder).as_posix()
        return SessionFacts(
            str(document["student"]), where, str(document["source"]), str(document["started_utc"])
        )
    except OSError as error:
        raise DamagedKeptError(f"{path}: cannot be read ({error.strerror})") from None
    except (ValueError, KeyError, TypeError):
        raise DamagedKeptError(f"{path}: damaged") from None


def _write_facts(folder: Path, facts: SessionFacts) -> None:
    document = {"format": _FORMAT, "version": _VERSION, **asdict(facts)}
    write_whole(folder / SESSION_FILE, _json(document))


def _unlinked(student: Path) -> Path:
    """OutputError for a link: what is kept lies in the folder that was asked for, nowhere else."""
    if student.is_symlink():
        raise OutsideError(f"{student}: is a link to another place; nothing is kept there")
    return student


def _new_folder(student: Path, now: datetime) -> Path:
    """Named by local time for people; a number after it where two begin in one minute."""
    student.mkdir(parents=True, exist_ok=True)
    stem = now.astimezone().strftime("%Y-%m-%d_%H%M")
    for number in count(1):
        folder = student / (stem if number == 1 else f"{stem}_{number}")
        with suppress(FileExistsError):
            folder.mkdir()
            return folder
    raise AssertionError("count never ends")


def _json(document: dict[str, object]) -> bytes:
    return (json.dumps(document, ensure_ascii=False, indent=2) + os.linesep).encode()
