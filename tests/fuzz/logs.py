"""The log: damaged SQLite bytes, tables that are not ours, and rows that mean harm."""

import io
import sqlite3
from functools import cache
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory

from baycue.commands.log_show import run_export, run_sessions, run_swings
from baycue.commands.terminal import terminal
from baycue.keep import pages
from baycue.keep.check import check, repair
from baycue.keep.log import SwingLog
from baycue.keep.passes import passed_before
from baycue.keep.place import Place
from baycue.keep.retention import delete_films, films
from baycue.keep.sidecar import read_sidecar
from tests.fuzz.damage import damaged
from tests.fuzz.target import Target, each
from tests.fuzz.words import HOSTILE_WORDS
from tests.kept_swing import keep, swing_record

_COLUMNS = {
    "students": ("name", "folder"),
    "plans": ("name", "text", "sha256", "student_id"),
    "sessions": ("folder", "source", "started_utc", "ended_utc", "student_id"),
    "swings": ("number", "at_utc", "outcome", "reason", "sidecar", "film", "film_bytes", "block",
               "block_title", "software_ms", "probe", "plan_id", "session_id"),
    "answers": ("target", "outcome", "measure", "value", "sigma", "unit", "margin", "watch_only"),
}  # fmt: skip
_VALUES = (
    *("NULL", "-1", "0", "1e308", "9e999", "9223372036854775807", "x'00ff'", "zeroblob(100000)"),
    *("CAST(x'ff00fe' AS TEXT)", "'../../../outside.txt'", "'/etc/passwd'", "'log.sqlite'"),
)
_TRICKS = (
    "PRAGMA user_version = 99",
    "PRAGMA user_version = -3",
    "PRAGMA user_version = 0",
    "PRAGMA user_version = 1",
    "PRAGMA application_id = 1",
    "DROP TABLE answers",
    "DROP TABLE swings",
    "DELETE FROM students",
    "DROP TABLE plans; CREATE TABLE plans (id, student_id, sha256, name, text)",
    "DROP TABLE students; CREATE TABLE students (id INTEGER PRIMARY KEY)",
    "DROP TABLE answers; CREATE VIEW answers AS SELECT * FROM answers_",
    "DROP TABLE answers; CREATE VIEW answers AS WITH RECURSIVE c(x) AS (SELECT 1 UNION ALL "
    "SELECT x + 1 FROM c) SELECT x AS swing_id, x AS place, x AS student_id, 'a' AS target, "
    "'pass' AS outcome, 0 AS watch_only, 'a' AS measure, 1.0 AS value, 1.0 AS sigma, 'm' AS unit, "
    "1.0 AS margin, 'a' AS reason FROM c",
    "CREATE TRIGGER t AFTER INSERT ON sessions BEGIN DELETE FROM swings; END",
    "CREATE TRIGGER t BEFORE UPDATE ON swings BEGIN SELECT RAISE(ABORT, 'no'); END",
    "CREATE TABLE more (a)",
    "ALTER TABLE swings RENAME TO swinks",
    "ALTER TABLE swings ADD COLUMN more TEXT",
    "ALTER TABLE students RENAME COLUMN name TO nom",
)


def draw(random: Random) -> bytes:
    """Half are damaged bytes, half are whole files of hostile content."""
    if random.random() < 0.5:
        return damaged(seed(), random)
    data = rewritten(seed(), random)
    return damaged(data, random) if random.random() < 0.1 else data


def rewritten(data: bytes, random: Random) -> bytes:
    """The log with some of its values or tables replaced, by SQL."""
    connection = sqlite3.connect(":memory:", isolation_level=None)
    connection.deserialize(data)
    connection.execute("PRAGMA ignore_check_constraints = ON")
    for _ in range(random.choice((1, 1, 2, 4))):
        try:
            connection.executescript(_trick(random))
        except sqlite3.Error:
            continue
    try:
        return connection.serialize()
    finally:
        connection.close()


def _trick(random: Random) -> str:
    if random.random() < 0.35:
        return random.choice(_TRICKS)
    table = random.choice(list(_COLUMNS))
    word = random.choice(HOSTILE_WORDS).replace("\x00", "").encode("utf-8", "replace").decode()
    value = random.choice((*_VALUES, "'{}'".format(word.replace("'", "''"))))
    return f"UPDATE {table} SET {random.choice(_COLUMNS[table])} = {value}"


def feed(data: bytes, folder: Path) -> None:
    """Open it, ask it all that screens ask, let films go, check and repair it."""
    place = Place(folder / "kept")
    place.folder.mkdir()
    place.log.write_bytes(data)
    console = terminal(io.StringIO())
    each(
        lambda: check(place),
        lambda: run_sessions(place.folder, None, 50, console),
        lambda: run_swings(place.folder, None, console),
        lambda: run_export(place.folder, folder / "all.csv", None, console),
        lambda: run_export(place.folder, folder / "all.jsonl", None, console),
    )
    each(lambda: let_go(place), lambda: repair(place))
    with SwingLog(place.log) as log:
        read(log, place)


def let_go(place: Place) -> None:
    """Every film that the log tells of."""
    with SwingLog(place.log) as log:
        delete_films(log, place, films(log))


def read(log: SwingLog, place: Place) -> None:
    """What reports and screens ask."""
    for name in pages.student_names(log):
        student = pages.student_id(log, name)
        passed_before(log, name)
        for row in pages.newest_swings(log, student) if student is not None else ():
            pages.answers(log, row.id)
            read_sidecar(place.inside(row.sidecar))


@cache
def seed() -> bytes:
    """A log of three swings of two students, all in one file."""
    with TemporaryDirectory() as folder:
        place = Place(Path(folder))
        for number, student in enumerate(("Heron", "Heron", "Alder"), 1):
            keep(place, swing_record(number, student))
        connection = sqlite3.connect(place.log, isolation_level=None)
        connection.execute("PRAGMA journal_mode = DELETE")
        connection.execute("VACUUM")
        connection.close()
        return place.log.read_bytes()


TARGET = Target("log", 0.03, draw, feed)
