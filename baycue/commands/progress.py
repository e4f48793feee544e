"""How long work shows that it goes on."""

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeRemainingColumn


def progress_bar(console: Console) -> Progress:
    """A bar with the task, how much of it is done and the time left; gone when done.

    Nothing where the output is not a terminal.
    """
    return Progress(
        TextColumn("{task.description}", markup=False),
        BarColumn(),
        MofNCompleteColumn(),
        TimeRemainingColumn(),
        console=console,
        transient=True,
        disable=not console.is_terminal,
    )
