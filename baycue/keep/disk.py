"""Is there room left?"""

import shutil
from collections.abc import Callable
from pathlib import Path

LEAST_FOR_FILMS_BYTES = 1 << 30
LEAST_FOR_SIDECARS_BYTES = 64 << 20

FreeBytes = Callable[[Path], int]


def free_bytes(folder: Path) -> int:
    """What the disk that a folder lies on has left; OSError if it is gone."""
    return shutil.disk_usage(folder).free


def why_no_film(free: int) -> str:
    """What to tell when films are not kept; empty while there is room."""
    if free >= LEAST_FOR_FILMS_BYTES:
        return ""
    return f"the disk has only {free / 1e9:.1f} GB left: films are not kept"
