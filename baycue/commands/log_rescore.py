"""Judge kept swings by another plan and say what changes."""

from collections.abc import Sequence
from pathlib import Path

from rich.console import Console

from baycue.commands.log_show import kept_place, say, student_named
from baycue.commands.progress import progress_bar
from baycue.counted import counted
from baycue.errors import KeptError, SceneError
from baycue.keep.log import SwingLog
from baycue.keep.pages import SwingRow, newest_swings, swings_of_session
from baycue.keep.place import Place
from baycue.keep.rescore import Change, rescored
from baycue.keep.sidecar import read_sidecar
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.verdict.verdict import Outcome, TargetVerdict

_ALL = 1 << 31


def run_rescore(
    folder: Path | None,
    plan_file: Path,
    student: str | None,
    session: int | None,
    console: Console,
) -> tuple[Change, ...]:
    """Read every sidecar, judge it, tell the changes; raises BaycueError with one clear line."""
    plan, place = load_plan(plan_file), kept_place(folder)
    with SwingLog(place.log) as log:
        whose = student_named(log, student or plan.student)
        assert whose is not None, "a name was given"
        rows = (
            swings_of_session(log, session)
            if session is not None
            else tuple(reversed(newest_swings(log, whose, _ALL)))
        )
    with progress_bar(console) as bar:
        task = bar.add_task("judging again", total=len(rows))
        changes: list[Change] = []
        lines: list[str] = []
        for row in rows:
            change = _judged(place, row, plan, lines)
            changes += [change] if change else []
            bar.advance(task)
    for line in lines:
        say(console, line)
    _tell(changes, len(rows), console)
    return tuple(changes)


def _judged(place: Place, row: SwingRow, plan: Plan, lines: list[str]) -> Change | None:
    try:
        return rescored(read_sidecar(place.inside(row.sidecar)), plan)
    except (KeptError, SceneError) as error:
        where = "" if isinstance(error, KeptError) else f"{_name(row.session, row.number)}: "
        lines.append(f"{where}{error}")
        return None


def _tell(changes: Sequence[Change], of_all: int, console: Console) -> None:
    for change in changes:
        if change.outcome_changed or change.targets:
            _tell_change(change, console)
    changed = sum(change.outcome_changed for change in changes)
    say(
        console,
        f"{len(changes)} of {counted(of_all, 'swing')} judged again, {changed} answered otherwise: "
        f"{_counts(changes)}",
    )


def _tell_change(change: Change, console: Console) -> None:
    record = change.record
    name = _name(record.session, record.number) + (f" ({record.go.words})" if record.go else "")
    before, after = change.before.outcome.value, change.after.outcome.value
    say(console, f"{name}: {before} -> {after}" if before != after else f"{name}: still {after}")
    for was, now in change.targets:
        told = was or now
        assert told is not None
        answers = (t.outcome.value if t else "not asked" for t in (was, now))
        say(console, f"    {told.target_name}: {' -> '.join(answers)}{_say_band(was, now)}")


def _say_band(was: TargetVerdict | None, now: TargetVerdict | None) -> str:
    """That "too close to call" is meant more or less widely than it was; empty if not."""
    if was is None or now is None or was.band == now.band:
        return ""
    before = f"{was.band:g}" if was.band else "not noted, 1 unless the plan gave another,"
    return f" (band: {before} -> {now.band:g} sigmas)"


def _counts(changes: Sequence[Change]) -> str:
    return ", ".join(
        f"{outcome.value} {sum(c.before.outcome is outcome for c in changes)} -> "
        f"{sum(c.after.outcome is outcome for c in changes)}"
        for outcome in Outcome
    )


def _name(session: str, number: int) -> str:
    return f"{session.rpartition('/')[2]}, swing {number}"
