"""Putting students, sessions and swings into the log."""

import sqlite3
from pathlib import PurePosixPath

from baycue.keep.folders import SessionFacts
from baycue.keep.log import SwingLog
from baycue.keep.names import folder_name
from baycue.keep.place import SIDECAR_SUFFIX, swing_stem
from baycue.keep.record import PlanText, PracticeGo, SwingRecord
from baycue.verdict.verdict import TargetVerdict


def add_session(log: SwingLog, facts: SessionFacts) -> int:
    """The session's row, made if there is none."""
    with log.change() as connection:
        return _session_id(connection, facts)


def resume_session(log: SwingLog, facts: SessionFacts) -> None:
    """Tell that a session that was cut off goes on."""
    with log.change() as connection:
        connection.execute(
            "UPDATE sessions SET ended_utc = NULL, ended_how = NULL WHERE id = ?",
            (_session_id(connection, facts),),
        )


def end_session(log: SwingLog, facts: SessionFacts, ended_utc: str, interrupted: bool) -> None:
    """Tell that a session is over; the first word on it stands."""
    with log.change() as connection:
        connection.execute(
            "UPDATE sessions SET ended_utc = ?, ended_how = ? WHERE id = ? AND ended_how IS NULL",
            (
                ended_utc,
                "interrupted" if interrupted else "closed",
                _session_id(connection, facts),
            ),
        )


def add_swing(log: SwingLog, facts: SessionFacts, record: SwingRecord) -> bool:
    """Add a swing whose sidecar is whole; False if it is there already."""
    with log.change() as connection:
        session_id = _session_id(connection, facts)
        known = connection.execute(
            "SELECT 1 FROM swings WHERE session_id = ? AND number = ?", (session_id, record.number)
        ).fetchone()
        if known:
            return False
        student_id = _student_id(connection, facts.student)
        plan_id = _plan_id(connection, student_id, record.plan)
        swing_id = _insert_swing(connection, facts, record, (session_id, student_id, plan_id))
        if record.scored:
            rows = [
                _answer(swing_id, student_id, place, answer)
                for place, answer in enumerate(record.scored.verdict.targets, 1)
            ]
            connection.executemany(f"INSERT INTO answers VALUES ({_marks(12)})", rows)
    return True


def sidecar_of(facts: SessionFacts, number: int) -> str:
    """The name in the log of a swing's sidecar."""
    return str(PurePosixPath(facts.folder) / (swing_stem(number) + SIDECAR_SUFFIX))


def _insert_swing(
    connection: sqlite3.Connection,
    facts: SessionFacts,
    record: SwingRecord,
    ids: tuple[int, int, int],
) -> int:
    verdict = record.scored.verdict if record.scored else None
    film = record.film
    row = (
        *ids,
        record.number,
        record.at_utc,
        verdict.outcome.value if verdict else None,
        verdict.reason if verdict else record.unscorable,
        sidecar_of(facts, record.number),
        str(PurePosixPath(facts.folder) / film.file) if film else None,
        film.nbytes if film else None,
        film.codec if film else None,
        record.software_ms,
        *_go(record.go),
    )
    added = connection.execute(
        "INSERT INTO swings (session_id, student_id, plan_id, number, at_utc, outcome, reason, "
        "sidecar, film, film_bytes, film_codec, software_ms, block, drill, block_title, "
        "drill_name, probe) "
        f"VALUES ({_marks(len(row))})",
        row,
    )
    return int(added.lastrowid or 0)


def _marks(count: int) -> str:
    return ",".join("?" * count)


def _go(go: PracticeGo | None) -> tuple[object, ...]:
    if go is None:
        return None, None, None, None, False
    return go.place.block, go.place.drill, go.block, go.drill, go.probe


def _answer(
    swing_id: int, student_id: int, place: int, answer: TargetVerdict
) -> tuple[object, ...]:
    measured = answer.measurement
    return (
        swing_id,
        place,
        student_id,
        answer.target_name,
        answer.outcome.value,
        answer.watch_only,
        measured.measure if measured else None,
        measured.value if measured else None,
        measured.sigma if measured else None,
        measured.unit.value if measured else None,
        answer.margin,
        answer.reason,
    )


def _student_id(connection: sqlite3.Connection, name: str) -> int:
    connection.execute(
        "INSERT INTO students (name, folder) VALUES (?, ?) ON CONFLICT DO NOTHING",
        (name, folder_name(name)),
    )
    found = connection.execute("SELECT id FROM students WHERE name = ?", (name,)).fetchone()
    return int(found[0])


def _plan_id(connection: sqlite3.Connection, student_id: int, plan: PlanText) -> int:
    connection.execute(
        "INSERT INTO plans (student_id, sha256, name, text) VALUES (?, ?, ?, ?) "
        "ON CONFLICT DO NOTHING",
        (student_id, plan.sha256, plan.name, plan.text),
    )
    found = connection.execute(
        "SELECT id FROM plans WHERE student_id = ? AND sha256 = ?", (student_id, plan.sha256)
    ).fetchone()
    return int(found[0])


def _session_id(connection: sqlite3.Connection, facts: SessionFacts) -> int:
    student_id = _student_id(connection, facts.student)
    connection.execute(
        "INSERT INTO sessions (student_id, folder, source, started_utc) VALUES (?, ?, ?, ?) "
        "ON CONFLICT DO NOTHING",
        (student_id, facts.folder, facts.source, facts.started_utc),
    )
    found = connection.execute(
        "SELECT id FROM sessions WHERE folder = ?", (facts.folder,)
    ).fetchone()
    return int(found[0])
