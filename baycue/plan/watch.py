"""A plan file that is read again when the coach has saved it; a broken edit changes nothing."""

from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from stat import S_ISREG
from textwrap import shorten
from typing import Protocol

from baycue.errors import PlanError
from baycue.plan.file import LARGEST_FILE_BYTES, plan_text
from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan

_MOST_SHOWN = 56
"""Characters; a big screen shows longer lines too small."""


@dataclass(frozen=True, slots=True)
class Stamp:
    """What changes when a file is saved: its time, its size and a digest of what it says.

    Some disks keep times to two seconds only, so a second save of the same size would not show
    by its time.
    """

    mtime_ns: int
    size_bytes: int
    digest: bytes


class PlanFile(Protocol):
    """The one way to the disk."""

    def stamp(self) -> Stamp | None:
        """The file's stamp now; None if there is no such file, or it cannot be read."""

    def text(self) -> str:
        """All that it says; PlanError if it cannot be read."""


@dataclass(frozen=True, slots=True)
class FileOnDisk:
    """A plan file where the coach saves it."""

    path: Path

    def stamp(self) -> Stamp | None:
        """By asking the file system and reading no more than a plan may hold."""
        try:
            seen = self.path.stat()
            if not S_ISREG(seen.st_mode):
                return None
            with self.path.open("rb") as file:
                digest = sha256(file.read(LARGEST_FILE_BYTES + 1)).digest()
        except OSError:
            return None
        return Stamp(seen.st_mtime_ns, seen.st_size, digest)

    def text(self) -> str:
        """The file decoded."""
        return plan_text(self.path)


@dataclass(frozen=True, slots=True)
class PlanNews:
    """What a save brought: a new plan, or why the one before goes on.

    ``faults``: one line each, with file, line and key; empty if the plan was taken.
    ``briefly``: the first of them for a big screen, without the file.
    """

    plan: Plan | None
    faults: tuple[str, ...] = ()
    briefly: str = ""


class PlanWatch:
    """The last good plan of a file, and news when it has been saved.

    Reads and checks the file at once; raises PlanError if it is wrong from the start.
    """

    def __init__(self, path: Path, file: PlanFile | None = None) -> None:
        self._source, self._file = str(path), file or FileOnDisk(path)
        # The stamp is taken before the text: a save between the two is seen later.
        self._read = self._seen = self._file.stamp()
        self._text = self._file.text()
        self._is_good = True
        self.plan = parse_plan(self._text, self._source)

    @property
    def text(self) -> str:
        """What the last good plan was made from."""
        return self._text

    def news(self) -> PlanNews | None:
        """Look once, cheaply; None if nothing was saved, or is just being saved.

        A save counts when two looks in turn find the same: an editor may write in several steps.
        """
        stamp, before = self._file.stamp(), self._seen
        self._seen = stamp
        if stamp == self._read or stamp != before:
            return None
        self._read = stamp
        try:
            return self._taken()
        except PlanError as error:
            self._is_good = False
            faults = tuple(str(error).splitlines())
            return PlanNews(None, faults, _briefly(faults, self._source))

    def _taken(self) -> PlanNews | None:
        """The news of what the file says now; the same text saved again is none."""
        text = self._file.text()
        if self._is_good and text == self._text:
            return None
        self.plan = parse_plan(text, self._source)
        self._text, self._is_good = text, True
        return PlanNews(self.plan)


def _briefly(faults: tuple[str, ...], source: str) -> str:
    """``line 7, at: "P66" is not a known checkpoint (and 2 more)``, cut short where it is long."""
    told = faults[0].removeprefix(f"{source}:").strip()
    line, _, what = told.partition(": ")
    if line.isdigit():
        key, _, why = what.partition(": ")
        told = f"line {line}, {key.rpartition('.')[2]}: {why}" if why else f"line {line}, {key}"
    words = shorten(told.split(";")[0], _MOST_SHOWN, placeholder=" ...")
    return f"{words} (and {len(faults) - 1} more)" if len(faults) > 1 else words
