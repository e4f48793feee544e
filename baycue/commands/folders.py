"""Where results go: always a new folder, so that nothing is overwritten."""

from itertools import count
from pathlib import Path

from baycue.errors import OutputError


def new_folder(parent: Path, stem: str) -> Path:
    """Make and return ``parent/stem-1``, or the first free number after it."""
    try:
        parent.mkdir(parents=True, exist_ok=True)
        for number in count(1):
            folder = parent / f"{stem}-{number}"
            if not folder.exists():
                folder.mkdir()
                return folder
    except OSError as error:
        raise OutputError(
            f"{parent}: no folder can be made in it ({error.strerror}); name another with --out"
        ) from None
    raise AssertionError("count never ends")
