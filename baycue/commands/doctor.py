"""Tell whether this machine is fit for a session, and what to do where it is not."""

from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.doctor.checks import doctor
from baycue.setup.report import Answer, SetUpReport


def run_doctor(keep: Path, console: Console) -> SetUpReport:
    """Look at everything and print a row a matter."""
    report = doctor(keep)
    table = Table("matter", "answer", "found", "to do")
    for row in report.rows:
        table.add_row(row.name, row.answer.value, row.found, row.do)
    console.print(table)
    wrong, unsure = len(report.of(Answer.NO_GO)), len(report.of(Answer.UNSURE))
    words = f"{wrong} to mend" if wrong else "fit for a session"
    console.print(f"This machine: {words}, {unsure} to know of.", highlight=False)
    return report
