"""The terminal that commands write to."""

import io
from typing import TextIO

from rich.console import Console


def terminal(file: TextIO | None = None) -> Console:
    """Text is shown as it stands: a name may hold what would be taken for a style, ``[/b]``.

    ``file``: somewhere else than the standard output.
    """
    return Console(file=file, markup=False)


def show_whatever_comes(stream: TextIO) -> None:
    """Have what the terminal's encoding lacks shown as an escape, instead of ending the program.

    A file's name may be no text at all on some systems.
    """
    if isinstance(stream, io.TextIOWrapper):
        stream.reconfigure(errors="backslashreplace")
