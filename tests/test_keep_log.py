"""The log: what goes in comes out, by index, from any version, by several programs at once."""

import shutil
import sqlite3
import threading
from contextlib import closing
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from baycue.commands.benchmark_log import fill, values_for
from baycue.errors import KeptError
from baycue.keep import pages, schema
from baycue.keep.entries import add_session, add_swing, end_session
from baycue.keep.log import SwingLog, write_ahead
from baycue.keep.notes import Note, add_note
from tests.kept_swing import DATA, PROBE, session_facts, swing_record


@pytest.fixture
def log_file(tmp_path: Path) -> Path:
    path = tmp_path / "log.sqlite"
    with SwingLog(path, create=True) as log:
        for student in ("Heron", "Alder"):
            facts = session_facts(student)
            add_session(log, facts)
            for number in (1, 2, 3):
                assert add_swing(log, facts, swing_record(number, student))
            end_session(log, facts, "2026-11-26T15:00:00.000Z", interrupted=student == "Alder")
    return path


def test_a_session_and_its_swings_come_out(log_file: Path) -> None:
    with SwingLog(log_file) as log:
        heron = pages.student_id(log, "Heron")
        assert heron is not None
        (session,) = pages.sessions(log, heron)
        assert (session.swings, session.passes, session.fails, session.close) == (3, 0, 3, 0)
        assert session.ended_how == "closed"
        swings = pages.swings_of_session(log, session.id)
        assert [s.number for s in swings] == [1, 2, 3]
        assert swings[0].sidecar.endswith("/2026-11-26_1430/swing_001.json.gz")
        assert pages.newest_swings(log, heron, 1) == swings[2:]
        assert pages.swing(log, swings[0].id) == swings[0]
        answers = pages.answers(log, swings[0].id)
        assert answers[0].target == "knee past ankle at P6"
        assert (answers[0].value, answers[0].sigma, answers[0].unit) == (0.021, 0.008, "m")
        assert answers[-1].measure is None


def test_a_swing_is_added_once(log_file: Path) -> None:
    with SwingLog(log_file) as log:
        assert not add_swing(log, session_facts(), swing_record(2))
        assert len(log.rows("SELECT 1 FROM swings")) == 6


@pytest.mark.parametrize("name", sorted(pages.QUERIES))
def test_every_screen_query_goes_by_an_index(name: str, tmp_path: Path) -> None:
    query = pages.QUERIES[name]
    with SwingLog(tmp_path / "log.sqlite", create=True) as log:
        values = ["1"] * query.count("?")
        steps = [r["detail"] for r in log.rows(f"EXPLAIN QUERY PLAN {query}", *values)]
    assert steps
    assert not scanned(steps) & {"swings", "answers", "w", "a"}, steps


def scanned(steps: list[str]) -> set[str]:
    """Tables read from end to end; what a limit has cut out before counts as no table."""
    cut = {s.split()[1] for s in steps if s.startswith(("MATERIALIZE", "CO-ROUTINE"))}
    return {s.split()[1] for s in steps if s.startswith("SCAN") and "USING" not in s} - cut


def test_a_query_without_an_index_would_be_seen(tmp_path: Path) -> None:
    with SwingLog(tmp_path / "log.sqlite", create=True) as log:
        steps = log.rows("EXPLAIN QUERY PLAN SELECT * FROM swings WHERE reason = ?", "1")
    assert scanned([s["detail"] for s in steps]) == {"swings"}


def test_the_first_version_is_brought_up_to_date(tmp_path: Path) -> None:
    old = tmp_path / "log.sqlite"
    shutil.copy(DATA / "log_v1.sqlite", old)
    with sqlite3.connect(old) as before:
        assert before.execute("PRAGMA user_version").fetchone() == (1,)
    before.close()
    with SwingLog(old) as log:
        assert schema.version_of(log.connection) == schema.VERSION
        heron = pages.student_id(log, "Heron")
        (session,) = pages.sessions(log, heron)
        assert [s.number for s in pages.swings_of_session(log, session.id)] == [1, 2, 3]


def test_a_first_logs_rows_are_read_back_and_it_takes_marked_ones(tmp_path: Path) -> None:
    old = tmp_path / "log.sqlite"
    shutil.copy(DATA / "log_v1.sqlite", old)
    with sqlite3.connect(old) as connection:
        connection.row_factory = sqlite3.Row
        before = [dict(row) for row in connection.execute("SELECT * FROM swings ORDER BY id")]
    connection.close()
    assert len(before) == 3
    with SwingLog(old) as log:
        after = [dict(row) for row in log.rows("SELECT * FROM swings ORDER BY id")]
        assert [{k: row[k] for k in before[0]} for row in after] == before
        (session,) = pages.sessions(log)
        assert [s.go for s in pages.swings_of_session(log, session.id)] == [None] * 3
        facts = session_facts(name="2026-11-27_1430")
        assert add_swing(log, facts, replace(swing_record(1), go=PROBE))
        newest = pages.newest_swings(log, 1, 2)
        assert [row.go for row in newest] == [PROBE, None]
        assert log.rows("PRAGMA integrity_check")[0][0] == "ok"


def test_a_second_versions_log_takes_notes_and_knows_its_films(tmp_path: Path) -> None:
    """``log_v2.sqlite`` was written by the program before films were made small."""
    old = tmp_path / "log.sqlite"
    shutil.copy(DATA / "log_v2.sqlite", old)
    with sqlite3.connect(old) as connection:
        connection.row_factory = sqlite3.Row
        assert connection.execute("PRAGMA user_version").fetchone()[0] == 2
        before = [dict(row) for row in connection.execute("SELECT * FROM swings ORDER BY id")]
        answers = [tuple(row) for row in connection.execute("SELECT * FROM answers")]
    connection.close()
    assert [row["probe"] for row in before] == [0, 1, 0]
    with SwingLog(old) as log:
        assert schema.version_of(log.connection) == schema.VERSION
        after = [dict(row) for row in log.rows("SELECT * FROM swings ORDER BY id")]
        assert [{k: row[k] for k in before[0]} for row in after] == before
        assert [tuple(row) for row in log.rows("SELECT * FROM answers")] == answers
        assert [row["film_codec"] for row in after] == [None, None, "mjpeg"]
        (session,) = pages.sessions(log)
        assert add_note(log, session.folder, "a/note_001.json", Note("2026-11-27", "head still"))
        assert [n.text for n in pages.notes_of_session(log, session.id)] == ["head still"]
        assert log.rows("PRAGMA integrity_check")[0][0] == "ok"
        assert log.rows("PRAGMA foreign_key_check") == []


def test_each_swing_tells_which_go_it_was(tmp_path: Path) -> None:
    told = replace(PROBE, probe=False)
    with SwingLog(tmp_path / "log.sqlite", create=True) as log:
        for number, go in enumerate((None, told, PROBE), 1):
            add_swing(log, session_facts(), replace(swing_record(number), go=go))
        rows = pages.swings_of_session(log, 1)
        assert [row.go for row in rows] == [None, told, PROBE]
        assert [pages.swing(log, row.id) for row in rows] == list(rows)


def test_a_step_that_fails_changes_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "log.sqlite"
    SwingLog(path, create=True).close()
    broken = (*schema.STEPS, "CREATE TABLE more (id INTEGER) STRICT;\nCREATE NONSENSE;\n")
    monkeypatch.setattr(schema, "STEPS", broken)
    monkeypatch.setattr(schema, "VERSION", len(broken))
    with pytest.raises(KeptError, match="syntax error"):
        SwingLog(path)
    monkeypatch.undo()
    with SwingLog(path) as log:
        assert schema.version_of(log.connection) == schema.VERSION
        assert log.rows("SELECT name FROM sqlite_master WHERE name = 'more'") == []


def spoilt(path: Path) -> None:
    path.write_bytes(b"this is no database" * 100)


def of_another_program(path: Path) -> None:
    path.unlink()
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE theirs (id INTEGER)")
    other.close()


def of_the_future(path: Path) -> None:
    with sqlite3.connect(path) as later:
        later.execute("PRAGMA user_version = 99")
    later.close()


@pytest.mark.parametrize(
    ("harm", "told"),
    [
        (spoilt, "the log is damaged"),
        (of_another_program, "of another program"),
        (of_the_future, "has version 99"),
        (Path.unlink, "there is no log"),
    ],
)
def test_a_log_that_cannot_be_used_is_told_of(harm: object, told: str, log_file: Path) -> None:
    for rest in ("-wal", "-shm"):
        Path(f"{log_file}{rest}").unlink(missing_ok=True)
    assert callable(harm)
    harm(log_file)
    with pytest.raises(KeptError, match=told):
        SwingLog(log_file)


def test_two_sessions_at_once_lose_nothing(tmp_path: Path) -> None:
    path = tmp_path / "log.sqlite"
    errors: list[BaseException] = []

    def play(student: str) -> None:
        try:
            with SwingLog(path, create=True) as log:
                facts = session_facts(student)
                add_session(log, facts)
                for number in range(1, 21):
                    add_swing(log, facts, swing_record(number, student))
        except BaseException as error:
            errors.append(error)

    both = [threading.Thread(target=play, args=(name,)) for name in ("Heron", "Alder")]
    for thread in both:
        thread.start()
    for thread in both:
        thread.join()
    assert errors == []
    with SwingLog(path) as log:
        assert [s.swings for s in pages.sessions(log)] == [20, 20]
        assert log.rows("PRAGMA integrity_check")[0][0] == "ok"


_BUSY = sqlite3.SQLITE_BUSY, sqlite3.SQLITE_BUSY_RECOVERY


class _TakenTwice(sqlite3.Connection):
    """Meets, twice, another that makes the same change at the same moment.

    SQLite then says so at once, however patient the connection: with two threads that open a new
    log together, in 10 of 1200 tries.
    """

    times = 0

    def execute(self, sql: str, *values: Any) -> sqlite3.Cursor:
        self.times += "journal_mode" in sql
        if "journal_mode" in sql and self.times <= 2:
            error = sqlite3.OperationalError("database is locked")
            error.sqlite_errorcode = _BUSY[self.times - 1]
            raise error
        return super().execute(sql, *values)


def test_what_sqlite_gives_up_at_once_is_asked_for_again(tmp_path: Path) -> None:
    with closing(sqlite3.connect(tmp_path / "log.sqlite", factory=_TakenTwice)) as mine:
        write_ahead(mine)
        assert mine.times == 3
        assert mine.execute("PRAGMA journal_mode").fetchone() == ("wal",)


def test_who_never_lets_go_of_a_new_log_is_told_of(tmp_path: Path) -> None:
    path = tmp_path / "log.sqlite"
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("CREATE TABLE one (a)")
        other.execute("BEGIN")
        other.execute("SELECT count(*) FROM one").fetchone()
        mine = sqlite3.connect(path, timeout=0.0)
        with closing(mine), pytest.raises(sqlite3.OperationalError, match="locked"):
            write_ahead(mine, patience_s=0.05)


def test_the_benchmark_asks_every_query_for_rows_that_are_there(tmp_path: Path) -> None:
    with SwingLog(tmp_path / "log.sqlite", create=True) as log:
        fill(log, 2000)
        for name, query in pages.QUERIES.items():
            assert log.rows(query, *values_for(name, 2000)), name
        assert log.rows("PRAGMA integrity_check")[0][0] == "ok"
        assert log.rows("PRAGMA foreign_key_check") == []
