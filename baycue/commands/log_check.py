"""Look over all that was kept, and make whole what can be."""

from pathlib import Path

from rich.console import Console

from baycue.commands.log_show import kept_place, say
from baycue.commands.progress import progress_bar
from baycue.counted import counted
from baycue.errors import KeptError
from baycue.keep.check import check, repair
from baycue.keep.place import Place


def run_check(folder: Path | None, films: bool, mend: bool, console: Console) -> bool:
    """Tell everything that is wrong, a line each; whether nothing is."""
    place = kept_place(folder)
    if not place.folder.is_dir():
        raise KeptError(f"{place.folder}: nothing has been kept there yet")
    if mend:
        for line in repair(place).done:
            say(console, line)
    return _checked(place, films, console)


def _checked(place: Place, films: bool, console: Console) -> bool:
    with progress_bar(console) as bar:
        task = bar.add_task("checking", total=None)
        found = check(place, films, lambda done: bar.update(task, completed=done))
    for line in found.wrong:
        say(console, line)
    wrong = f"{counted(len(found.wrong), 'thing')} wrong" if found.wrong else "all whole"
    looked_at = f"{counted(found.sidecars, 'swing')} and {counted(found.films, 'film')} looked at"
    say(console, f"{looked_at}: {wrong}")
    return not found.wrong
