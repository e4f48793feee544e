"""A bay with everything real: camera, sound, screen, disk, plan file and a live session."""

import re
import sqlite3
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from contextlib import ExitStack, closing, contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

from baycue.keep.place import Place
from baycue.rehearsal.faults.camera import CameraMaster, faulty_camera
from baycue.rehearsal.faults.disk import small_disk
from baycue.rehearsal.faults.display import Display
from baycue.rehearsal.faults.live_process import VERDICT, Line, LiveProcess
from baycue.rehearsal.faults.sound import SoundServer

_PRACTICE = """
practice:
  blocks:
    - drills: [{drill: full swing, count: 40}]
"""
_HOLDS_LOG = """
import sqlite3, sys, time
log = sqlite3.connect(sys.argv[1], isolation_level=None)
log.execute("BEGIN EXCLUSIVE")
print("held", flush=True)
time.sleep(float(sys.argv[2]))
"""
LIMIT_S = 180.0
"""Nothing takes so long, however busy the machine is."""


@dataclass(frozen=True, slots=True)
class BaySettings:
    """``display``, ``sound``: whether the bay has one; ``sound_on``: at the start.

    ``small_disk``: swings are kept on one of its own.  ``clocks``: the session's clocks can be made
    to go wrong.  ``camera_on``: at the start.  ``practice``: the plan lays out a session.
    """

    display: bool = False
    sound: bool = False
    sound_on: bool = True
    small_disk: bool = False
    clocks: bool = False
    camera_on: bool = True
    practice: bool = False


@dataclass(frozen=True, slots=True)
class BayFiles:
    """The files a bay is made of: the golfer's clip, one with a passer-by, and the plan."""

    clip: Path
    passer_by: Path
    plan: Path
    outcome: str


class Bay:
    """One session; ``expects``: the outcomes that are right now."""

    def __init__(
        self, folder: Path, files: BayFiles, settings: BaySettings, stack: ExitStack
    ) -> None:
        self.settings, self.files, self.folder = settings, files, folder
        self.expects = {files.outcome}
        self.camera: CameraMaster = stack.enter_context(
            faulty_camera((files.clip, files.passer_by))
        )
        self.plan = folder / "plan.yaml"
        practice = _PRACTICE if settings.practice else ""
        self.plan.write_text(files.plan.read_text(encoding="utf-8") + practice, encoding="utf-8")
        disk = folder / "disk"
        if settings.small_disk:
            stack.enter_context(small_disk(disk))
        self.place = Place(disk / "kept")
        self.clocks = folder / "clocks.json"
        self.sound, self.display = SoundServer(folder / "sound"), Display()
        if settings.sound and settings.sound_on:
            self.sound.start()
        stack.callback(self.sound.stop)
        if settings.display:
            self.display.start()
        stack.callback(self.display.kill)
        if not settings.camera_on:
            self.camera.order("gone")
        self._stack = stack
        self.runs: list[LiveProcess] = []
        self.start_live()
        stack.callback(self._kill_all)

    @property
    def live(self) -> LiveProcess:
        """The session's process, the one started last."""
        return self.runs[-1]

    @property
    def lines(self) -> list[Line]:
        """All that was told, by whichever process."""
        return [line for run in self.runs for line in run.lines]

    def start_live(self) -> None:
        """Start `baycue live` in the bay."""
        env = self.display.env if self.settings.display else {"DISPLAY": ""}
        env = env | (self.sound.env if self.settings.sound else {})
        wrong = self.clocks if self.settings.clocks else None
        complaints = self.folder / "complaints"
        self.runs.append(LiveProcess(self._arguments(), env, complaints, wrong))

    def told(self, pattern: str, since: int = 0, within_s: float = LIMIT_S) -> Line | None:
        """The first line of the process that matches, from number ``since`` on."""
        return self.live.wait_for(lambda line: bool(re.search(pattern, line.text)), within_s, since)

    def verdict(self, since: int = 0, within_s: float = LIMIT_S) -> Line | None:
        """The first verdict told from line ``since`` on."""
        return self.told(VERDICT.pattern, since, within_s)

    def verdicts(self) -> list[tuple[int, str]]:
        """Number and outcome of every swing told."""
        found = (VERDICT.match(line.text) for line in self.lines)
        return [(int(m[1]), m[2]) for m in found if m]

    def wait_for_session(self) -> None:
        """Until there is a folder for what it keeps; its first swing is still being filmed then."""
        until = time.monotonic() + LIMIT_S
        while not any(self.place.folder.rglob("session.json")):
            assert time.monotonic() < until, f"{self.place.folder}: there is still no session in it"
            time.sleep(0.05)

    def wait_for_log(self) -> None:
        """Until a swing is in it and it is shut; they are kept when there is nothing better to do.

        What is written over while it is open, SQLite puts right from its journal.
        """
        until, journal = time.monotonic() + LIMIT_S, Path(f"{self.place.log}-wal")
        while not self._has_swings() or journal.exists():
            assert time.monotonic() < until, f"{self.place.log}: there is still no swing in it"
            time.sleep(0.05)

    def _has_swings(self) -> bool:
        if not self.place.log.exists():
            return False
        with suppress(sqlite3.OperationalError), closing(sqlite3.connect(self.place.log)) as log:
            return log.execute("SELECT 1 FROM swings LIMIT 1").fetchone() is not None
        return False  # its tables are being made

    def hold_log(self, for_s: float) -> None:
        """Have another program hold the log; returns when it does."""
        command = [sys.executable, "-c", _HOLDS_LOG, str(self.place.log), str(for_s)]
        holder = subprocess.Popen(command, stdout=subprocess.PIPE)
        self._stack.callback(_end, holder)
        assert holder.stdout is not None
        holder.stdout.readline()

    def _arguments(self) -> list[str]:
        words = ["--source", self.camera.url, "--plan", str(self.plan), "--skip-set-up"]
        words += ["--keep", str(self.place.folder), "--no-compact"]
        words += [] if self.settings.display else ["--no-window"]
        return words + ([] if self.settings.sound else ["--no-sound"])

    def _kill_all(self) -> None:
        for run in self.runs:
            run.kill()


def _end(process: "subprocess.Popen[bytes]") -> None:
    process.kill()
    process.communicate()


@contextmanager
def open_bay(files: BayFiles, settings: BaySettings) -> Iterator[Bay]:
    """A bay in a folder of its own, which goes with it."""
    with ExitStack() as stack:
        folder = stack.enter_context(
            tempfile.TemporaryDirectory(prefix="baycue-fault-", ignore_cleanup_errors=True)
        )
        yield Bay(Path(folder), files, settings, stack)
