"""The report for a terminal of 80 columns."""

from rich.console import Group, RenderableType
from rich.table import Table
from rich.text import Text

from baycue.coach_report.figures import TargetFigures, figures_of, outcomes_of
from baycue.coach_report.record import PracticeRecord
from baycue.coach_report.words import (
    CAUTIONS,
    asked,
    drift_words,
    rate_words,
    retention_words,
)
from baycue.counted import counted


def report_text(record: PracticeRecord) -> RenderableType:
    """The whole report."""
    swings = sum(len(session.swings) for session in record.sessions)
    days = ", ".join(session.day for session in record.sessions)
    told = f"{counted(swings, 'swing')} in {counted(len(record.sessions), 'session')}"
    return Group(
        Text(f"{record.student}: {told} ({days})"),
        Text(f"Whole swings: {rate_words(outcomes_of(record))}\n"),
        *(part for figures in figures_of(record) for part in _target(figures)),
        *(Text(f"Coach's note: {note}") for note in record.coach_notes),
        *(Text(f"- {session.day}: {session.note}") for session in record.sessions if session.note),
        *(Text(f"- {s.day}, the coach: {note}") for s in record.sessions for note in s.coach_notes),
        Text("Cautions"),
        *(Text(f"- {caution}") for caution in CAUTIONS),
    )


def _target(figures: TargetFigures) -> tuple[RenderableType, ...]:
    return (
        Text(asked(figures.target), style="bold"),
        _sessions(figures),
        Text(retention_words(figures)),
        Text(f"{drift_words(figures)}\n"),
    )


def _sessions(figures: TargetFigures) -> Table:
    table = Table("session", box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    table.add_column("passed", no_wrap=True)
    for heading in ("too close", "not measured"):
        table.add_column(heading, justify="right")
    for session in figures.sessions:
        whole = session.whole
        cells = rate_words(whole), str(whole.too_close), str(whole.not_measured)
        table.add_row(session.day, *cells)
    whole = figures.practice
    table.add_row("all", rate_words(whole), str(whole.too_close), str(whole.not_measured))
    return table
