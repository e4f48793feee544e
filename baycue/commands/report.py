"""Write the coach's report, or print it."""

from dataclasses import dataclass
from datetime import date
from pathlib import Path

from rich.console import Console

from baycue.coach_report.figures import figures_of
from baycue.coach_report.from_log import practice_of
from baycue.coach_report.page import report_page
from baycue.coach_report.pictures import pictures_of
from baycue.coach_report.record import PracticeRecord
from baycue.coach_report.text import report_text
from baycue.commands.folders import refuse_unwritable
from baycue.errors import BaycueError
from baycue.keep.place import Place
from baycue.keep.whole import write_whole

LARGEST_BYTES = 15_000_000


@dataclass(frozen=True, slots=True)
class ReportRequest:
    """Whose practice, of which days (None: all), and where the page goes (None: print)."""

    student: str
    place: Place
    since: date | None = None
    until: date | None = None
    page: Path | None = None
    blur_faces: bool = False


def run_report(request: ReportRequest, console: Console) -> None:
    """Read what was kept and tell it."""
    refuse_unwritable(request.page)
    record = practice_of(request.place, request.student, request.since, request.until)
    if request.page is None:
        console.print(report_text(record), highlight=False)
        return
    page = page_within(record, request.blur_faces)
    write_whole(request.page, page.encode())
    console.print(f"Report written to {request.page}, {len(page) / 1e6:.1f} MB", soft_wrap=True)


def page_within(record: PracticeRecord, blur_faces: bool, largest: int = LARGEST_BYTES) -> str:
    """The page, without its clips if they would make it too large."""
    figures, made = figures_of(record), f"Made by baycue report on {date.today().isoformat()}"
    for clips in (True, False):
        page = report_page(record, pictures_of(figures, blur_faces, clips), made)
        if len(page) <= largest:
            return page
    raise BaycueError(f"the report would be over {largest / 1e6:g} MB; name fewer days")


def day(text: str | None, option: str) -> date | None:
    """A day as an option has it; BaycueError if it is none."""
    if text is None:
        return None
    try:
        return date.fromisoformat(text)
    except ValueError:
        raise BaycueError(f'{option} "{text}" is no day; write it as 2026-11-26') from None
