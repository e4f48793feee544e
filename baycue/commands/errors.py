"""The errors that the program can tell, with what each means and what to do."""

from rich.console import Console
from rich.table import Table

from baycue.error_catalogue import ENTRIES, NOTICES, Entry, Notice, entry_of
from baycue.errors import BaycueError
from baycue.plan.words import guess


def run_errors(code: str | None, console: Console) -> None:
    """All, a line each, or one in full; BaycueError for a code that is none."""
    if code is None:
        console.print(_all())
        return
    found = entry_of(code)
    if found is None:
        known = [entry.code for entry in (*ENTRIES, *NOTICES)]
        raise BaycueError(
            f'"{code}" is no error\'s code; `baycue errors` lists them{guess(code, known)}'
        )
    for line in _in_full(found):
        console.print(line, soft_wrap=True, highlight=False)


def _all() -> Table:
    table = Table(box=None, pad_edge=False)
    for heading in ("code", "means", "exit"):
        table.add_column(heading, no_wrap=heading != "means")
    for entry in ENTRIES:
        table.add_row(entry.code, entry.meaning, str(entry.kind.exit_code))
    for notice in NOTICES:
        table.add_row(notice.code, f'"{notice.said.strip(" :")}": {notice.meaning}', "live")
    return table


def _in_full(entry: Entry | Notice) -> tuple[str, ...]:
    said = (f'Told as: "...{entry.said}..."',) if isinstance(entry, Notice) else ()
    return (f"{entry.code} ({entry.ends})", *said, entry.meaning, f"What to do: {entry.remedy}")
