"""A student's practice as it was kept, read into a ``PracticeRecord``."""

from collections.abc import Callable, Iterator
from datetime import date, datetime
from functools import cache
from itertools import count

from baycue.coach_report.record import (
    PracticeAnswer,
    PracticeRecord,
    PracticeSession,
    PracticeSwing,
)
from baycue.errors import BaycueError, KeptError
from baycue.keep.log import SwingLog
from baycue.keep.pages import (
    PAGE,
    QUERIES,
    AnswerRow,
    SessionRow,
    SwingRow,
    answers,
    notes_of_session,
    sessions,
    student_id,
    student_names,
    swings_of_session,
)
from baycue.keep.place import Place
from baycue.keep.rescore import targets_at
from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan
from baycue.plan.target import Target
from baycue.plan.words import guess
from baycue.verdict.verdict import Outcome

PlanOf = Callable[[int], Plan | None]


def practice_of(
    place: Place, student: str, since: date | None = None, until: date | None = None
) -> PracticeRecord:
    """The student's sessions from one day to another, both included, in order of time.

    Raises KeptError for an unknown student or if nothing was kept in those days.
    """
    with SwingLog(place.log) as log:
        number = student_id(log, student)
        if number is None:
            raise KeptError(
                f'{place.log}: knows no "{student}"{guess(student, student_names(log))}'
            )
        plan_of = _plans(log)
        rows = [row for row in _all_sessions(log, number) if _within(row, since, until)]
        taken = tuple(_session(log, place, row, plan_of) for row in reversed(rows) if row.swings)
        notes = tuple(dict.fromkeys(_notes(log, rows, plan_of)))
    if not taken:
        raise KeptError(f'{place.log}: nothing of "{student}" was kept in those days')
    return PracticeRecord(student, taken, notes)


def _all_sessions(log: SwingLog, student: int) -> Iterator[SessionRow]:
    """The newest first, page by page."""
    for offset in count(0, PAGE):
        page = sessions(log, student, PAGE, offset)
        yield from page
        if len(page) < PAGE:
            return


def _within(row: SessionRow, since: date | None, until: date | None) -> bool:
    day = _time(row.started_utc).astimezone().date()
    return (since is None or day >= since) and (until is None or day <= until)


def _time(utc: str) -> datetime:
    return datetime.fromisoformat(utc.replace("Z", "+00:00"))


def _plans(log: SwingLog) -> PlanOf:
    @cache
    def plan_of(plan_id: int) -> Plan | None:
        (row,) = log.rows(QUERIES["a plan"], plan_id)
        try:
            return parse_plan(row["text"], row["name"])
        except BaycueError:  # of an older version, say: its answers are left out
            return None

    return plan_of


def _session(log: SwingLog, place: Place, row: SessionRow, plan_of: PlanOf) -> PracticeSession:
    swings = tuple(
        _swing(place, each, answers(log, each.id), plan_of(each.plan_id))
        for each in swings_of_session(log, row.id)
    )
    note = "cut off before its end; all swings told are here" if row.ended_how != "closed" else ""
    said = tuple(each.text for each in notes_of_session(log, row.id))
    return PracticeSession(_time(row.started_utc), row.source, swings, note, said)


def _swing(
    place: Place, row: SwingRow, given: tuple[AnswerRow, ...], plan: Plan | None
) -> PracticeSwing:
    targets = _targets(plan, row) if plan else {}
    return PracticeSwing(
        number=row.number,
        outcome=Outcome(row.outcome) if row.outcome else None,
        answers=tuple(
            _answer(each, targets[each.target]) for each in given if each.target in targets
        ),
        probe=row.go is not None and row.go.probe,
        sidecar=place.inside(row.sidecar),
        film=place.inside(row.film) if row.film else None,
    )


def _targets(plan: Plan, row: SwingRow) -> dict[str, Target]:
    """Those that the swing may have been judged by; a drill's own go before the plan's."""
    own = targets_at(plan, row.go.place if row.go else None)
    return {target.title: target for target in (*plan.targets, *own)}


def _answer(row: AnswerRow, target: Target) -> PracticeAnswer:
    return PracticeAnswer(target, Outcome(row.outcome), row.value, row.margin)


def _notes(log: SwingLog, rows: list[SessionRow], plan_of: PlanOf) -> list[str]:
    ids = {swing.plan_id for row in rows for swing in swings_of_session(log, row.id)}
    plans = [plan_of(plan_id) for plan_id in sorted(ids)]
    return [plan.notes for plan in plans if plan and plan.notes]
