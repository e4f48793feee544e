"""New files that are either whole or not there under their name."""

import os
from contextlib import suppress
from pathlib import Path
from typing import Literal

from baycue.errors import ExistsError, OutputError
from baycue.keep.place import PARTIAL


def write_whole(path: Path, data: bytes) -> None:
    """Write a new file; it has its name only when it is on the disk.

    OutputError if it exists already or the disk refuses; a ``.partial`` may then be left.
    """
    partial = path.with_name(path.name + PARTIAL)
    try:
        _write_synced(partial, "xb", data)
        name_whole(partial, path)
    except FileExistsError:
        raise ExistsError(f"{path}: exists already and is never overwritten") from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None


def replace_whole(path: Path, data: bytes) -> None:
    """Put other bytes in a file's place: at every moment it holds all of the old or of the new.

    For one program at a time.  OutputError if the disk refuses; the old file then stays.
    """
    partial = path.with_name(path.name + PARTIAL)
    try:
        _write_synced(partial, "wb", data)
        partial.replace(path)
        sync_folder(path.parent)
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None


def _write_synced(path: Path, mode: Literal["xb", "wb"], data: bytes) -> None:
    with path.open(mode) as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())


def sync_folder(folder: Path) -> None:
    """Have the names in a folder on the disk, where the system lets a folder be synced."""
    with suppress(OSError):
        opened = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(opened)
        finally:
            os.close(opened)


def name_whole(partial: Path, path: Path) -> None:
    """Give a whole file its name; FileExistsError if there is one of that name."""
    try:
        os.link(partial, path)
    except FileExistsError:
        raise
    except (OSError, AttributeError):  # a file system without hard links, as on memory cards
        if path.exists():
            raise FileExistsError(str(path)) from None
        partial.rename(path)
    partial.unlink(missing_ok=True)
