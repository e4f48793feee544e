"""How long screens wait for a long log, beside the same log without its indexes."""

import tempfile
import time
from collections.abc import Iterator
from pathlib import Path
from statistics import median

from rich.console import Console
from rich.table import Table

from baycue.keep.log import SwingLog
from baycue.keep.pages import PAGE, QUERIES

_STUDENTS, _SWINGS_A_SESSION, _TARGETS, _REPEATS = 20, 50, 3, 5
_TITLE = "{} swings; processor time, so that a busy machine does not count"
_MIDDLE = 10
"""A student in the middle."""

Row = tuple[object, ...]


def run_benchmark_log(swings: int, console: Console) -> dict[str, tuple[float, float]]:
    """Print and return each query's time with and without indexes, ms."""
    with (
        tempfile.TemporaryDirectory() as folder,
        SwingLog(Path(folder) / "log.sqlite", create=True) as log,
    ):
        fill(log, swings)
        indexed = _times_ms(log, swings)
        _drop_indexes(log)
        bare = _times_ms(log, swings)
    table = Table("query", "ms", "ms without indexes", "ratio", title=_TITLE.format(swings))
    for name, time_ms in indexed.items():
        ratio = time_ms / bare[name]
        table.add_row(name, f"{time_ms:.2f}", f"{bare[name]:.1f}", f"{ratio:.3f}")
    console.print(table)
    console.print(f"slowest: {max(indexed.values()):.1f} ms; what is wanted is under 100 ms")
    return {name: (time_ms, bare[name]) for name, time_ms in indexed.items()}


def fill(log: SwingLog, swings: int) -> None:
    """Invented rows: sessions of 50 swings of 3 targets, students in turn."""
    sessions = -(-swings // _SWINGS_A_SESSION)
    with log.change() as connection:
        _insert = connection.executemany
        _insert(
            "INSERT INTO students VALUES (?, ?, ?)",
            ((k, f"student {k}", f"s{k}") for k in range(1, _STUDENTS + 1)),
        )
        _insert(
            "INSERT INTO plans VALUES (?, ?, ?, ?, ?)",
            ((k, k, f"{k:064x}", "a plan", "text " * 100) for k in range(1, _STUDENTS + 1)),
        )
        _insert(
            "INSERT INTO sessions VALUES (?, ?, ?, ?, ?, ?, ?)",
            map(_session, range(1, sessions + 1)),
        )
        _insert(f"INSERT INTO swings VALUES ({_marks(18)})", map(_swing, range(1, swings + 1)))
        _insert("INSERT INTO notes VALUES (?, ?, ?, ?, ?, ?)", map(_note, range(1, sessions + 1)))
        _insert(f"INSERT INTO answers VALUES ({_marks(12)})", _answers(swings))


def values_for(name: str, swings: int) -> Row:
    """What to ask a query for: something in the middle of the log."""
    middle = swings // 2
    return {
        "sessions": (PAGE, 0),
        "sessions of a student": (_MIDDLE, PAGE, 0),
        "swings of a session": (middle // _SWINGS_A_SESSION,),
        "newest swings of a student": (_MIDDLE, PAGE),
        "a swing": (middle,),
        "a swing by its sidecar": (f"{middle}.json.gz",),
        "films before a swing": (_MIDDLE, middle, PAGE),
        "notes of a session": (middle // _SWINGS_A_SESSION,),
        "a swing's answers": (middle,),
        "pass history": (f"student {_MIDDLE}",),
        "a plan": (_MIDDLE,),
    }.get(name, ())


def _times_ms(log: SwingLog, swings: int) -> dict[str, float]:
    return {name: median(_one_ms(log, name, swings) for _ in range(_REPEATS)) for name in QUERIES}


def _one_ms(log: SwingLog, name: str, swings: int) -> float:
    begun = time.process_time()
    log.rows(QUERIES[name], *values_for(name, swings))
    return (time.process_time() - begun) * 1e3


def _drop_indexes(log: SwingLog) -> None:
    made = log.rows("SELECT name FROM sqlite_master WHERE type = 'index' AND sql IS NOT NULL")
    for row in made:
        log.rows(f"DROP INDEX {row['name']}")


def _student_of(session: int) -> int:
    return session % _STUDENTS + 1


def _session(number: int) -> Row:
    day = f"{2000 + number // 365:04d}-{number % 12 + 1:02d}-{number % 28 + 1:02d}T12:00:00.000Z"
    return number, _student_of(number), f"f{number}", "camera 0", day, day, "closed"


def _swing(number: int) -> Row:
    session, place = (number - 1) // _SWINGS_A_SESSION + 1, (number - 1) % _SWINGS_A_SESSION + 1
    student = _student_of(session)
    outcome = ("pass", "fail", "too close to call")[number % 3]
    at = f"2026-01-01T12:{place:02d}:00.000Z"
    files = f"{number}.json.gz", f"{number}.mov", 8_000_000
    reason = "knee past ankle at P6: 3.1 cm, 1.9 cm short of 5.0 cm (give or take 0.9 cm)"
    go = place // 10, 0, "a block", "full swing", place >= 40, "mjpeg"
    return number, session, student, student, place, at, outcome, reason, *files, 400.0, *go


def _note(session: int) -> Row:
    when = "2026-01-01T13:00:00.000Z"
    return session, session, _student_of(session), when, "ball further back", f"{session}.json"


def _answers(swings: int) -> Iterator[Row]:
    for number in range(1, swings + 1):
        student = _student_of((number - 1) // _SWINGS_A_SESSION + 1)
        for place in range(1, _TARGETS + 1):
            outcome = ("pass", "fail", "too close to call")[(number + place) % 3]
            said = ("knee past ankle", 0.03, 0.01, "m", -0.02, "3.1 cm, 1.9 cm short of 5.0 cm")
            yield number, place, student, f"target {place}", outcome, 0, *said


def _marks(count: int) -> str:
    return ",".join("?" * count)
