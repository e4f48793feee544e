"""New files that are either whole or not there under their name."""

import os
from pathlib import Path

from baycue.errors import ExistsError, OutputError
from baycue.keep.place import PARTIAL


def write_whole(path: Path, data: bytes) -> None:
    """Write a new file; it has its name only when it is on the disk.

    OutputError if it exists already or the disk refuses; a ``.partial`` may then be left.
    """
    partial = path.with_name(path.name + PARTIAL)
    try:
        with partial.open("xb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        name_whole(partial, path)
    except FileExistsError:
        raise ExistsError(f"{path}: exists already and is never overwritten") from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None


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
