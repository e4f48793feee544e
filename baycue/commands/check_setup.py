"""The set-up check on a recording's first seconds, as a table."""

from dataclasses import dataclass
from itertools import takewhile
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.glimpse import glimpses
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.pose.bystanders import people_in
from baycue.pose.landmarker import MediaPipePose
from baycue.setup.check import SetUpExtras, SetUpWatch, check
from baycue.setup.looked import Looked
from baycue.setup.report import Answer, SetUpReport

_SAMPLES = 3


@dataclass(frozen=True, slots=True)
class CheckSetUpRequest:
    """What the user asked for."""

    recording: Path
    plan: Path
    seconds: float = 1.5


def run_check_setup(request: CheckSetUpRequest, console: Console) -> SetUpReport:
    """Print the table; raises BaycueError with one clear line."""
    plan = load_plan(request.plan)
    report = check_recording(request.recording, plan, request.seconds)
    console.print(_table(report))
    wrong = len(report.of(Answer.NO_GO))
    words = f"Set-up: {wrong} to mend." if wrong else "Set-up: go."
    console.print(words, highlight=False)
    return report


def check_recording(path: Path, plan: Plan, seconds: float) -> SetUpReport:
    """The check on the first seconds of a recording; RecordingError if it cannot be read."""
    with RecordingSource(path) as source, MediaPipePose() as estimator:
        frames = list(_first(source, seconds))
        watch = SetUpWatch()
        for glimpse in glimpses(frames, estimator):
            watch = watch.after(glimpse)
    sampled = frames[:: max(len(frames) // _SAMPLES, 1)][:_SAMPLES]
    extras = SetUpExtras(people_in(sampled))
    return check(Looked(watch.seen, plan), extras)


def _first(source: RecordingSource, seconds: float) -> list[Frame]:
    return list(takewhile(lambda frame: frame.stamp_ns <= seconds * 1e9, source))


def _table(report: SetUpReport) -> Table:
    table = Table(title="Set-up")
    for title in ("matter", "answer", "found", "to do"):
        table.add_column(title)
    for row in report.rows:
        table.add_row(row.name, row.answer.value, row.found, row.do)
    return table
