"""All swings and answers as files that other programs read: CSV and JSON Lines."""

import csv
import io
import json
import sqlite3
from collections.abc import Iterator
from pathlib import Path

from baycue.errors import ExistsError, OutputError
from baycue.keep.log import SwingLog
from baycue.keep.place import PARTIAL
from baycue.keep.whole import name_whole

SWING_COLUMNS = (
    "student", "session", "session_started_utc", "swing", "at_utc", "plan", "plan_sha256",
    "outcome", "reason", "sidecar", "film", "block", "block_title", "drill", "probe",
    "session_notes",
)  # fmt: skip
ANSWER_COLUMNS = (
    "target", "target_outcome", "watch_only", "measure", "value", "sigma", "unit", "margin",
    "target_reason",
)  # fmt: skip
_ALL = """
SELECT w.id, t.name AS student, s.folder AS session, s.started_utc AS session_started_utc,
    w.number AS swing, w.at_utc, p.name AS plan, p.sha256 AS plan_sha256, w.outcome, w.reason,
    w.sidecar, w.film, w.block + 1 AS block, w.block_title, w.drill_name AS drill, w.probe,
    (SELECT json_group_array(text) FROM (
        SELECT text FROM notes WHERE session_id = s.id ORDER BY id)) AS session_notes,
    a.target, a.outcome AS target_outcome, a.watch_only, a.measure, a.value, a.sigma, a.unit,
    a.margin, a.reason AS target_reason
FROM swings AS w
JOIN students AS t ON t.id = w.student_id
JOIN sessions AS s ON s.id = w.session_id
JOIN plans AS p ON p.id = w.plan_id
LEFT JOIN answers AS a ON a.swing_id = w.id
{where} ORDER BY w.id, a.place
"""
_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def export_csv(log: SwingLog, path: Path, student: int | None = None) -> int:
    """One line for each answer; how many.  UTF-8 with a mark, as spreadsheets want it.

    Text that a spreadsheet would take for a formula gets an apostrophe before it.  OutputError if
    the file exists or cannot be written.
    """

    def lines() -> Iterator[str]:
        yield "\ufeff" + _csv_line((*SWING_COLUMNS, *ANSWER_COLUMNS))
        for row in _rows(log, student):
            swing = {**row, "session_notes": " / ".join(json.loads(row["session_notes"]))}
            yield _csv_line(tuple(swing[c] for c in (*SWING_COLUMNS, *ANSWER_COLUMNS)))

    return _write(path, lines()) - 1


def export_jsonl(log: SwingLog, path: Path, student: int | None = None) -> int:
    """One JSON object for each swing, its answers in it; how many swings."""
    return _write(path, (json.dumps(s, ensure_ascii=False) + "\n" for s in _swings(log, student)))


def _swings(log: SwingLog, student: int | None) -> Iterator[dict[str, object]]:
    swing: dict[str, object] = {}
    answers: list[dict[str, object]] = []
    number = None
    for row in _rows(log, student):
        if row["id"] != number:
            if number is not None:
                yield swing
            number, answers = row["id"], []
            swing = {c: row[c] for c in SWING_COLUMNS}
            swing |= {"probe": bool(row["probe"]), "answers": answers}
            swing["session_notes"] = json.loads(row["session_notes"])
        if row["target"] is not None:
            answer = {c: row[c] for c in ANSWER_COLUMNS}
            answers.append(answer | {"watch_only": bool(row["watch_only"])})
    if number is not None:
        yield swing


def _rows(log: SwingLog, student: int | None) -> Iterator[sqlite3.Row]:
    if student is None:
        return log.each(_ALL.format(where=""))
    return log.each(_ALL.format(where="WHERE w.student_id = ?"), student)


def _csv_line(values: tuple[object, ...]) -> str:
    line = io.StringIO()
    csv.writer(line).writerow([_safe(value) for value in values])
    return line.getvalue()


def _safe(value: object) -> object:
    if isinstance(value, str) and value.startswith(_FORMULA_STARTS):
        return f"'{value}"
    return value


def _write(path: Path, lines: Iterator[str]) -> int:
    """Write a new file, whole or not at all; how many lines."""
    partial = path.with_name(path.name + PARTIAL)
    count = 0
    try:
        with partial.open("x", encoding="utf-8", newline="") as file:
            for line in lines:
                file.write(line)
                count += 1
        name_whole(partial, path)
    except FileExistsError:
        raise ExistsError(f"{path}: exists already and is not overwritten") from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None
    return count
