"""Where swings are kept.

    FOLDER/
      log.sqlite                          the log: an index, made anew from the rest if it is lost
      students/heron-1f0c2a9b/            a student
        2026-11-26_1430/                  a session
          session.json                    whose it is, when it began, from what camera
          in_use                          there while the session goes on, and locked
          swing_001.json.gz               all that was found in the swing
          swing_001.mov                   its film as it was taken, or
          swing_001.mp4                   made small afterwards
          note_001.json                   what the coach says of the session

A file whose name ends in ``.partial`` is not whole.  ``swing_001.first.json.gz`` is what was known
at the verdict; it goes when the sidecar is there.
"""

import os
import sys
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from baycue.errors import OutsideError
from baycue.keep.names import folder_name

PARTIAL = ".partial"
SIDECAR_SUFFIX, FIRST_SUFFIX = ".json.gz", ".first.json.gz"
FILM_SUFFIX, SMALL_FILM_SUFFIX = ".mov", ".mp4"
_NAME = "Baycue"


def default_folder(
    platform: str = sys.platform,
    environment: Mapping[str, str] = os.environ,
    home: Path | None = None,
) -> Path:
    """The user's own data folder, by each system's custom.

    Linux: ``$XDG_DATA_HOME`` or ``~/.local/share`` (XDG Base Directory Specification 0.8).
    """
    home = home or Path.home()
    if platform == "win32":
        return Path(environment.get("LOCALAPPDATA") or home / "AppData" / "Local") / _NAME
    if platform == "darwin":
        return home / "Library" / "Application Support" / _NAME
    named = Path(environment.get("XDG_DATA_HOME", ""))
    return (named if named.is_absolute() else home / ".local" / "share") / _NAME.lower()


@dataclass(frozen=True, slots=True)
class Place:
    """The folder that all is kept in."""

    folder: Path

    @property
    def log(self) -> Path:
        """The log's file."""
        return self.folder / "log.sqlite"

    @property
    def students(self) -> Path:
        """The folder of students' folders."""
        return self.folder / "students"

    def student(self, name: str) -> Path:
        """A student's folder, which always lies in ``students``."""
        return self.students / folder_name(name)

    def inside(self, relative: str) -> Path:
        """A file of this place by its name in the log; KeptError if it would lie outside."""
        path = Path(os.path.normpath(self.folder / relative))
        if not path.is_relative_to(self.folder) or Path(relative).is_absolute():
            raise OutsideError(f"{relative:.200}: lies outside {self.folder}")
        return path


def swing_stem(number: int) -> str:
    """``swing_007``."""
    return f"swing_{number:03d}"
