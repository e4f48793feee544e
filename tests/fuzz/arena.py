"""A folder for one input after another, beside things that no input may touch."""

import os
import shutil
from pathlib import Path


class Arena:
    """``work``: an empty folder for an input.

    Everything in ``folder`` outside ``work`` is watched: names, sizes, times and contents.
    """

    def __init__(self, folder: Path) -> None:
        self.folder, self.work = folder, folder / "work"
        beside = folder / "beside"
        beside.mkdir(parents=True)
        for path in (folder / "outside.txt", beside / "swing_001.mov", beside / "log.sqlite"):
            path.write_bytes(b"not ours")
        self._before = self._seen()

    def clear(self) -> Path:
        """The empty folder."""
        shutil.rmtree(self.work, ignore_errors=True)
        self.work.mkdir()
        return self.work

    def touched(self) -> str:
        """What has changed outside; empty if nothing has."""
        now = self._seen()
        if now == self._before:
            return ""
        return ", ".join(sorted({name for name, _ in now.items() ^ self._before.items()}))

    def _seen(self) -> dict[str, tuple[int, int, int]]:
        found = {}
        for folder in (self.folder, self.folder / "beside"):
            for entry in os.scandir(folder):
                if entry.path != str(self.work):
                    facts, is_file = entry.stat(follow_symlinks=False), entry.is_file()
                    size, at_ns = facts.st_size * is_file, facts.st_mtime_ns * is_file
                    found[entry.path] = (facts.st_mode, size, at_ns)
        return found
