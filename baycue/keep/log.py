"""The log of all swings: an SQLite file, opened by any number of programs at once."""

import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Self

from baycue.errors import KeptError, LogError, NewerKeptError
from baycue.keep import schema

_PATIENCE_S = 10.0
_ASK_AGAIN_S = 0.01
_PRIMARY_CODE = 0xFF
"""The lowest byte of SQLite's error codes; the others say why, as that a log is being recovered."""
_DAMAGED = (
    "the log is damaged ({}); `baycue log check --repair` sets it aside and makes it anew from the "
    "sidecars"
)
_SETTINGS = ("foreign_keys = ON", "secure_delete = ON", "synchronous = FULL", "temp_store = MEMORY")
"""Deleted rows are overwritten; what was told to be kept is on the disk; no temporary files."""


class SwingLog:
    """An open log, used by one thread.

    ``create``: make the file if it is not there.  Raises KeptError, in one line, for a file that
    is missing, damaged, no log, of a newer version, or that may not be written.
    """

    def __init__(self, path: Path, create: bool = False) -> None:
        self.path = path
        if not create and not path.exists():
            raise KeptError(f"{path}: there is no log; nothing has been kept there yet")
        with told(path):
            self.connection = sqlite3.connect(path, timeout=_PATIENCE_S, isolation_level=None)
            try:
                self._begin()
            except BaseException:
                self.connection.close()
                raise

    def _begin(self) -> None:
        self.connection.row_factory = sqlite3.Row
        for setting in _SETTINGS:
            self.connection.execute(f"PRAGMA {setting}")
        self.connection.execute("BEGIN")  # so that no other program takes a step meanwhile
        self._refuse_strange()
        self.connection.execute("COMMIT")
        write_ahead(self.connection)
        schema.bring_up_to_date(self.connection)

    def _refuse_strange(self) -> None:
        version = schema.version_of(self.connection)
        (kind,) = self.connection.execute("PRAGMA application_id").fetchone()
        (tables,) = self.connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
        if tables and kind != schema.APPLICATION_ID:
            raise LogError(f"{self.path}: is an SQLite file of another program")
        if version > schema.VERSION:
            raise NewerKeptError(
                f"{self.path}: has version {version}, and this program knows {schema.VERSION} at "
                "most; use a newer Baycue"
            )
        strange = schema.strange_in(self.connection) if tables or version else ""
        if strange:
            raise LogError(
                f'{self.path}: "{strange:.60}" in it is not as Baycue made it; `baycue log check '
                "--repair` sets the log aside and makes it anew from the sidecars"
            )

    @contextmanager
    def change(self) -> Iterator[sqlite3.Connection]:
        """All or nothing of what is changed inside."""
        with told(self.path):
            self.connection.execute("BEGIN IMMEDIATE")
            try:
                yield self.connection
            except BaseException:
                self.connection.execute("ROLLBACK")
                raise
            self.connection.execute("COMMIT")

    def rows(self, query: str, *values: object) -> list[sqlite3.Row]:
        """All rows of a query."""
        with told(self.path):
            return self.connection.execute(query, values).fetchall()

    def each(self, query: str, *values: object) -> Iterator[sqlite3.Row]:
        """The rows of a query one by one, for what may be too much at once."""
        with told(self.path):
            yield from self.connection.execute(query, values)

    def close(self) -> None:
        """Close the file; a second call does nothing."""
        self.connection.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()


def write_ahead(connection: sqlite3.Connection, patience_s: float = _PATIENCE_S) -> None:
    """Let others read while one writes.

    SQLite gives up on this at once where others have the file open, whatever the connection's own
    patience.  Raises sqlite3.OperationalError after ``patience_s``, and at once for anything else.
    """
    until_s = time.monotonic() + patience_s
    while True:
        try:
            connection.execute("PRAGMA journal_mode = WAL")
            return
        except sqlite3.OperationalError as error:
            busy = error.sqlite_errorcode & _PRIMARY_CODE == sqlite3.SQLITE_BUSY
            if not busy or time.monotonic() >= until_s:
                raise
        time.sleep(_ASK_AGAIN_S)


@contextmanager
def told(path: Path) -> Iterator[None]:
    """Tell SQLite's errors as one clear line."""
    try:
        yield
    except UnicodeEncodeError as error:
        raise LogError(f"{path}: {error.object!a} is no text that a log can hold") from None
    except UnicodeDecodeError:  # in what SQLite says of damage
        raise LogError(f"{path}: {_DAMAGED.format('broken text')}") from None
    except sqlite3.OperationalError as error:
        raise LogError(f"{path}: {_why(error)}") from None
    except sqlite3.DatabaseError as error:
        if isinstance(error, sqlite3.IntegrityError | sqlite3.ProgrammingError):
            raise
        raise LogError(f"{path}: {_DAMAGED.format(error)}") from None


def _why(error: sqlite3.OperationalError) -> str:
    text = str(error)
    if "locked" in text or "busy" in text:
        return f"another program holds it for over {_PATIENCE_S:g} s; close that one"
    if "readonly" in text or "unable to open" in text:
        return f"may not be opened for writing ({text}); check the folder's permissions"
    if "full" in text:
        return "the disk is full; free some space"
    return text
