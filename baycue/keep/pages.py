"""What screens and reports ask of the log: each a query that uses an index, however long the log.

``QUERIES`` names them all; a test looks at how SQLite goes about each.
"""

import sqlite3
from dataclasses import dataclass

from baycue.keep.log import SwingLog
from baycue.keep.notes import Note
from baycue.keep.record import DrillPlace, PracticeGo

PAGE = 50

_SESSIONS = """
SELECT s.id, t.name AS student, s.folder, s.source, s.started_utc, s.ended_utc, s.ended_how,
    count(w.id) AS swings,
    count(w.id) FILTER (WHERE w.outcome = 'pass') AS passes,
    count(w.id) FILTER (WHERE w.outcome = 'fail') AS fails,
    count(w.id) FILTER (WHERE w.outcome = 'too close to call') AS close
FROM (SELECT * FROM sessions {where} ORDER BY started_utc DESC LIMIT ? OFFSET ?) AS s
JOIN students AS t ON t.id = s.student_id
LEFT JOIN swings AS w ON w.session_id = s.id
GROUP BY s.id ORDER BY s.started_utc DESC, s.id DESC
"""
_SWING_COLUMNS = """
SELECT w.id, w.number, w.at_utc, t.name AS student, s.folder AS session, p.name AS plan,
    w.plan_id, w.outcome, w.reason, w.sidecar, w.film, w.film_bytes, w.film_codec,
    w.software_ms,
    w.block, w.drill, w.block_title, w.drill_name, w.probe
"""
_SWING_JOINS = """
JOIN sessions AS s ON s.id = w.session_id
JOIN students AS t ON t.id = w.student_id
JOIN plans AS p ON p.id = w.plan_id
"""
QUERIES = {
    "students": """
        SELECT t.id, t.name, (SELECT count(*) FROM sessions AS s WHERE s.student_id = t.id)
            AS sessions FROM students AS t ORDER BY t.name
    """,
    "sessions": _SESSIONS.format(where=""),
    "sessions of a student": _SESSIONS.format(where="WHERE student_id = ?"),
    "swings of a session": f"""{_SWING_COLUMNS} FROM swings AS w {_SWING_JOINS}
        WHERE w.session_id = ? ORDER BY w.number""",
    "newest swings of a student": f"""{_SWING_COLUMNS} FROM (SELECT * FROM swings
        WHERE student_id = ? ORDER BY id DESC LIMIT ?) AS w {_SWING_JOINS} ORDER BY w.id DESC""",
    "a swing by its sidecar": "SELECT id, student_id FROM swings WHERE sidecar = ?",
    "films before a swing": f"""{_SWING_COLUMNS} FROM (SELECT * FROM swings
        WHERE student_id = ? AND id < ? AND film IS NOT NULL AND outcome IS NOT NULL
        ORDER BY id DESC LIMIT ?) AS w {_SWING_JOINS} ORDER BY w.id DESC""",
    "a swing": f"{_SWING_COLUMNS} FROM swings AS w {_SWING_JOINS} WHERE w.id = ?",
    "a swing's answers": "SELECT * FROM answers WHERE swing_id = ? ORDER BY place",
    "pass history": """
        SELECT answers.target, answers.outcome, answers.value, answers.margin, plans.text
        FROM answers
        JOIN swings ON swings.id = answers.swing_id
        JOIN plans ON plans.id = swings.plan_id
        JOIN students ON students.id = answers.student_id
        WHERE students.name = ? AND answers.measure IS NOT NULL
            AND answers.value IS NOT NULL AND answers.margin IS NOT NULL
        ORDER BY swings.id, answers.place""",
    "notes of a session": "SELECT at_utc, text FROM notes WHERE session_id = ? ORDER BY id",
    "a plan": "SELECT id, name, sha256, text FROM plans WHERE id = ?",
}


@dataclass(frozen=True, slots=True)
class SessionRow:
    """A session and how its swings were answered; ``folder`` is its name in the log."""

    id: int
    student: str
    folder: str
    source: str
    started_utc: str
    ended_utc: str | None
    ended_how: str | None
    swings: int
    passes: int
    fails: int
    close: int


@dataclass(frozen=True, slots=True)
class SwingRow:
    """A swing in the log; ``outcome`` is None if it could not be judged.

    ``sidecar`` and ``film`` are files by their names in the log: ``Place.inside`` finds them.
    ``go``: which go of a laid-out session it was, if that was kept.
    """

    id: int
    number: int
    at_utc: str
    student: str
    session: str
    plan: str
    plan_id: int
    outcome: str | None
    reason: str
    sidecar: str
    film: str | None
    film_bytes: int | None
    film_codec: str | None
    software_ms: float | None
    go: PracticeGo | None = None


@dataclass(frozen=True, slots=True)
class AnswerRow:
    """One target's answer; value, sigma and margin in ``unit``, None if nothing was measured."""

    swing_id: int
    place: int
    target: str
    outcome: str
    watch_only: bool
    measure: str | None
    value: float | None
    sigma: float | None
    unit: str | None
    margin: float | None
    reason: str


def student_id(log: SwingLog, name: str) -> int | None:
    """A student's row; None for one that is not in the log."""
    found = log.rows("SELECT id FROM students WHERE name = ?", name)
    return int(found[0]["id"]) if found else None


def student_names(log: SwingLog) -> tuple[str, ...]:
    """Everybody in the log, by name."""
    return tuple(row["name"] for row in log.rows(QUERIES["students"]))


def sessions(
    log: SwingLog, student: int | None = None, limit: int = PAGE, offset: int = 0
) -> tuple[SessionRow, ...]:
    """The newest sessions first, of all or of one student."""
    if student is None:
        rows = log.rows(QUERIES["sessions"], limit, offset)
    else:
        rows = log.rows(QUERIES["sessions of a student"], student, limit, offset)
    return tuple(SessionRow(**row) for row in rows)


def notes_of_session(log: SwingLog, session: int) -> tuple[Note, ...]:
    """What the coach said of a session, in order."""
    return tuple(Note(**row) for row in log.rows(QUERIES["notes of a session"], session))


def swings_of_session(log: SwingLog, session: int) -> tuple[SwingRow, ...]:
    """A session's swings in order."""
    return tuple(_swing_row(row) for row in log.rows(QUERIES["swings of a session"], session))


def newest_swings(log: SwingLog, student: int, limit: int = PAGE) -> tuple[SwingRow, ...]:
    """A student's newest swings, the newest first."""
    rows = log.rows(QUERIES["newest swings of a student"], student, limit)
    return tuple(_swing_row(row) for row in rows)


def films_before(
    log: SwingLog, student: int, before: int | None = None, limit: int = PAGE
) -> tuple[SwingRow, ...]:
    """A student's judged swings with films before one (None: all), the newest first."""
    before = 1 << 62 if before is None else before
    rows = log.rows(QUERIES["films before a swing"], student, before, limit)
    return tuple(_swing_row(row) for row in rows)


def swing_of_sidecar(log: SwingLog, sidecar: str) -> tuple[int, int] | None:
    """The row and the student's of a swing by its sidecar's name in the log; None if unknown."""
    found = log.rows(QUERIES["a swing by its sidecar"], sidecar)
    return (int(found[0]["id"]), int(found[0]["student_id"])) if found else None


def swing(log: SwingLog, swing_id: int) -> SwingRow | None:
    """One swing."""
    found = log.rows(QUERIES["a swing"], swing_id)
    return _swing_row(found[0]) if found else None


def answers(log: SwingLog, swing_id: int) -> tuple[AnswerRow, ...]:
    """A swing's answers in the plan's order."""
    return tuple(
        AnswerRow(
            swing_id=row["swing_id"],
            place=row["place"],
            target=row["target"],
            outcome=row["outcome"],
            watch_only=bool(row["watch_only"]),
            measure=row["measure"],
            value=row["value"],
            sigma=row["sigma"],
            unit=row["unit"],
            margin=row["margin"],
            reason=row["reason"],
        )
        for row in log.rows(QUERIES["a swing's answers"], swing_id)
    )


def _swing_row(row: sqlite3.Row) -> SwingRow:
    values = dict(row)
    block, drill = values.pop("block"), values.pop("drill")
    title, name, probe = (values.pop(c) for c in ("block_title", "drill_name", "probe"))
    told = block is not None
    go = PracticeGo(DrillPlace(block, drill), title, name, bool(probe)) if told else None
    return SwingRow(**values, go=go)
