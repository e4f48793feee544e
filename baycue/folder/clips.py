"""The clips in a folder, and what tells one from another."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

from baycue.errors import RecordingError

VIDEO_SUFFIXES = (".mp4", ".mov", ".m4v", ".mkv", ".webm", ".avi")


@dataclass(frozen=True, slots=True)
class Clip:
    """A clip and its name: the path below the folder, with ``/`` between parts."""

    name: str
    path: Path


def clips_in(folder: Path) -> tuple[Clip, ...]:
    """Every video below the folder, by name; hidden files and folders are left out.

    Raises RecordingError if there is no such folder or no video in it.
    """
    if not folder.is_dir():
        what = "is no folder" if folder.exists() else "there is no such folder"
        raise RecordingError(f"{folder}: {what}; name one that holds recordings")
    found = [path for path in folder.rglob("*") if _is_clip(path, folder)]
    if not found:
        raise RecordingError(f"{folder}: holds no recording; looked for {', '.join(_looked_for())}")
    named = [Clip(path.relative_to(folder).as_posix(), path.absolute()) for path in found]
    return tuple(sorted(named, key=lambda clip: clip.name))


def sha256_of(path: Path) -> str:
    """The digest of a file's bytes, hexadecimal; raises OSError if it cannot be read."""
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _is_clip(path: Path, folder: Path) -> bool:
    hidden = any(part.startswith(".") for part in path.relative_to(folder).parts)
    return path.suffix.lower() in VIDEO_SUFFIXES and not hidden and path.is_file()


def _looked_for() -> list[str]:
    return [suffix.removeprefix(".").upper() for suffix in VIDEO_SUFFIXES]
