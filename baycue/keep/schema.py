"""The log's tables, and the steps from each version of them to the next.

``PRAGMA user_version`` holds the version.  A step is never changed once it has been released; a
change is a new step at the end, tried on ``tests/data/log_v1.sqlite`` by a test.
"""

import sqlite3
from functools import cache

APPLICATION_ID = 0x42_43_75_65
"""``BCue``: tells this program's files from other SQLite files."""

_FIRST = """
CREATE TABLE students (
    id INTEGER PRIMARY KEY,
    name TEXT NOT NULL UNIQUE,
    folder TEXT NOT NULL UNIQUE
) STRICT;
CREATE TABLE plans (
    id INTEGER PRIMARY KEY,
    student_id INTEGER NOT NULL REFERENCES students ON DELETE CASCADE,
    sha256 TEXT NOT NULL,
    name TEXT NOT NULL,
    text TEXT NOT NULL,
    UNIQUE (student_id, sha256)
) STRICT;
CREATE TABLE sessions (
    id INTEGER PRIMARY KEY,
    student_id INTEGER NOT NULL REFERENCES students ON DELETE CASCADE,
    folder TEXT NOT NULL UNIQUE,
    source TEXT NOT NULL,
    started_utc TEXT NOT NULL,
    ended_utc TEXT,
    ended_how TEXT CHECK (ended_how IN ('closed', 'interrupted'))
) STRICT;
CREATE INDEX sessions_of_student ON sessions (student_id, started_utc DESC);
CREATE INDEX sessions_by_time ON sessions (started_utc DESC);
CREATE TABLE swings (
    id INTEGER PRIMARY KEY,
    session_id INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
    student_id INTEGER NOT NULL REFERENCES students ON DELETE CASCADE,
    plan_id INTEGER NOT NULL REFERENCES plans,
    number INTEGER NOT NULL,
    at_utc TEXT NOT NULL,
    outcome TEXT CHECK (outcome IN ('pass', 'fail', 'too close to call')),
    reason TEXT NOT NULL,
    sidecar TEXT NOT NULL UNIQUE,
    film TEXT,
    film_bytes INTEGER,
    software_ms REAL,
    UNIQUE (session_id, number)
) STRICT;
CREATE INDEX swings_of_session ON swings (session_id, number, outcome);
CREATE INDEX swings_of_student ON swings (student_id, id DESC);
CREATE INDEX swings_of_plan ON swings (plan_id);
CREATE INDEX films ON swings (at_utc) WHERE film IS NOT NULL;
CREATE TABLE answers (
    swing_id INTEGER NOT NULL REFERENCES swings ON DELETE CASCADE,
    place INTEGER NOT NULL,
    student_id INTEGER NOT NULL REFERENCES students ON DELETE CASCADE,
    target TEXT NOT NULL,
    outcome TEXT NOT NULL CHECK (outcome IN ('pass', 'fail', 'too close to call')),
    watch_only INTEGER NOT NULL,
    measure TEXT,
    value REAL,
    sigma REAL,
    unit TEXT,
    margin REAL,
    reason TEXT NOT NULL,
    PRIMARY KEY (swing_id, place)
) STRICT, WITHOUT ROWID;
CREATE INDEX answers_of_target ON answers (student_id, target, swing_id DESC, outcome, measure);
"""

_GOES = """
ALTER TABLE swings ADD COLUMN block INTEGER;
ALTER TABLE swings ADD COLUMN drill INTEGER;
ALTER TABLE swings ADD COLUMN block_title TEXT;
ALTER TABLE swings ADD COLUMN drill_name TEXT;
ALTER TABLE swings ADD COLUMN probe INTEGER NOT NULL DEFAULT 0 CHECK (probe IN (0, 1));
"""
"""Which go of a laid-out session a swing was: places from 0, null for none."""

_NOTES = """
ALTER TABLE swings ADD COLUMN film_codec TEXT;
UPDATE swings SET film_codec = 'mjpeg' WHERE film IS NOT NULL;
CREATE TABLE notes (
    id INTEGER PRIMARY KEY,
    session_id INTEGER NOT NULL REFERENCES sessions ON DELETE CASCADE,
    student_id INTEGER NOT NULL REFERENCES students ON DELETE CASCADE,
    at_utc TEXT NOT NULL,
    text TEXT NOT NULL,
    file TEXT NOT NULL UNIQUE
) STRICT;
CREATE INDEX notes_of_session ON notes (session_id, id);
CREATE INDEX notes_of_student ON notes (student_id);
"""
"""What the coach says of a session; how a film is packed, which so far was one way only."""

STEPS: tuple[str, ...] = (_FIRST, _GOES, _NOTES)
VERSION = len(STEPS)


def version_of(connection: sqlite3.Connection) -> int:
    """The version a file has; 0 for a new one."""
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def strange_in(connection: sqlite3.Connection) -> str:
    """A table, view or trigger that is not as the steps up to its version make it; empty if none.

    What others put into the file would be run by our own queries.
    """
    differ = _as_made(version_of(connection)) ^ _shapes(connection)
    return min((name for name, _ in differ), default="")


@cache
def _as_made(version: int) -> frozenset[tuple[str, str]]:
    """What the steps up to a version make."""
    made = sqlite3.connect(":memory:", isolation_level=None)
    try:
        for step in STEPS[:version]:
            made.executescript(step)
        return _shapes(made)
    finally:
        made.close()


def _shapes(connection: sqlite3.Connection) -> frozenset[tuple[str, str]]:
    """Each table with its columns, and each view and trigger."""
    found = connection.execute(
        "SELECT type, name FROM sqlite_master WHERE type <> 'index' AND name NOT LIKE 'sqlite_%'"
    ).fetchall()
    return frozenset((str(name), f"{kind} {_columns(connection, name)}") for kind, name in found)


def _columns(connection: sqlite3.Connection, table: str) -> str:
    rows = connection.execute(
        'SELECT name, type, "notnull", pk, hidden FROM pragma_table_xinfo(?)', (table,)
    )
    return repr([tuple(row) for row in rows])


def bring_up_to_date(connection: sqlite3.Connection) -> None:
    """Take the steps that the file lacks, each whole or not at all.

    The connection must be in autocommit mode.  Two programs may do this at once.
    """
    while version_of(connection) < VERSION:
        connection.execute("BEGIN IMMEDIATE")
        try:
            _next_step(connection)
            connection.execute("COMMIT")
        except BaseException:
            connection.execute("ROLLBACK")
            raise


def _next_step(connection: sqlite3.Connection) -> None:
    done = version_of(connection)  # again, now that nobody else can be at it
    if done >= VERSION:
        return
    for statement in STEPS[done].split(";\n"):
        if statement.strip():
            connection.execute(statement)
    if done == 0:
        connection.execute(f"PRAGMA application_id = {APPLICATION_ID}")
    connection.execute(f"PRAGMA user_version = {done + 1}")
