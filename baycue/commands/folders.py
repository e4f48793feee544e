"""Where results go: always a new place, so that nothing is overwritten."""

import os
from contextlib import suppress
from itertools import count
from pathlib import Path

from baycue.errors import ExistsError, OutputError


def new_folder(parent: Path, stem: str) -> Path:
    """Make and return ``parent/stem-1``, or the first free number after it."""
    try:
        parent.mkdir(parents=True, exist_ok=True)
        for number in count(1):
            folder = parent / f"{stem}-{number}"
            with suppress(FileExistsError):
                folder.mkdir()
                return folder
    except OSError as error:
        raise OutputError(
            f"{parent}: no folder can be made in it ({error.strerror}); name another with --out"
        ) from None
    raise AssertionError("count never ends")


def refuse_unusable(folder: Path, option: str = "--out") -> None:
    """OutputError if no folder can be made there, for want of a place or of permission.

    ``option``: by which the user may name another.
    """
    standing = next(place for place in (folder, *folder.absolute().parents) if place.exists())
    if not standing.is_dir():
        raise OutputError(f"{folder}: {standing} is no folder; name another with {option}")
    if not os.access(standing, os.W_OK):
        raise OutputError(
            f"{folder}: nothing may be written in {standing}; name another folder with {option}"
        )


def drop_if_empty(folder: Path) -> None:
    """Remove a folder that nothing was put into."""
    with suppress(OSError):
        folder.rmdir()


def refuse_unwritable(path: Path | None) -> None:
    """OutputError for a file that is there already or whose folder is missing.

    Asked before the work, so that nobody waits for a result that cannot be kept.
    """
    if path is None:
        return
    if path.exists():
        raise ExistsError(f"{path}: exists already and is not overwritten; name another file")
    if not path.parent.is_dir():
        raise OutputError(f"{path}: there is no folder {path.parent}; make it first")
