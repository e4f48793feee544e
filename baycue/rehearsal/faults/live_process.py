"""`baycue live` as a process of its own, and every line that it tells, with its time."""

import os
import re
import shutil
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

_MAIN = "from baycue.cli import main; main()"
_WITH_CLOCKS = "from baycue.rehearsal.faults.clocks import main; main()"
_BOUND = "-dac_override,-dac_read_search"
_LOOK_S = 0.02
VERDICT = re.compile(r"swing (\d+): (PASS|FAIL|TOO CLOSE TO CALL)")
_ANSWER = re.compile(r"swing (\d+)(?:: (?:PASS|FAIL|TOO CLOSE TO CALL|judged)| cannot be judged)")
_ENDS_S = 120.0


@dataclass(frozen=True, slots=True)
class Line:
    """What was told, and when on the monotonic clock, s."""

    at_s: float
    text: str


def answered_in(lines: Sequence[Line]) -> list[int]:
    """The number of every swing told of, whether it could be judged or not.

    On a machine that has too much to do some cannot.
    """
    return [int(m[1]) for line in lines if (m := _ANSWER.match(line.text))]


class LiveProcess:
    """One run of `baycue live`; ``wrong_clocks``: a file that says how wrong its clocks go.

    A process of root's is bound by files' permissions as anybody's is, where ``setpriv`` is there.
    """

    def __init__(
        self,
        arguments: Sequence[str],
        env: Mapping[str, str],
        complaints: Path,
        wrong_clocks: Path | None = None,
    ) -> None:
        main = [sys.executable, "-c", _WITH_CLOCKS if wrong_clocks else _MAIN]
        clocks = [str(wrong_clocks)] if wrong_clocks else []
        self._complaints = complaints
        with complaints.open("ab") as stderr:
            self.process = subprocess.Popen(
                [*_bound_by_permissions(), *main, *clocks, "live", *arguments],
                env={**os.environ, **env},
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=stderr,
                text=True,
            )
        self.lines: list[Line] = []
        self._thread = threading.Thread(target=self._listen, daemon=True)
        self._thread.start()

    @property
    def pid(self) -> int:
        """The process."""
        return self.process.pid

    def wait_for(
        self, told: Callable[[Line], bool], within_s: float, since: int = 0
    ) -> Line | None:
        """The first such line from number ``since`` on; None if none came in time or at all."""
        deadline = time.monotonic() + within_s
        while True:
            is_over = time.monotonic() >= deadline or not self._thread.is_alive()
            found = next((line for line in self.lines[since:] if told(line)), None)
            if found or is_over:
                return found
            time.sleep(_LOOK_S)

    def ends_by_itself(self, within_s: float) -> bool:
        """Wait for that."""
        try:
            self.process.wait(within_s)
        except subprocess.TimeoutExpired:
            return False
        return True

    def end(self) -> int | None:
        """Ctrl-C; the exit code, None if it had to be killed."""
        if self.process.poll() is None:
            self.process.send_signal(signal.SIGCONT)
            self.process.send_signal(signal.SIGINT)
        return self.ended()

    def ended(self) -> int | None:
        """Wait for its end; the exit code, None if it had to be killed."""
        try:
            return self.process.wait(_ENDS_S)
        except subprocess.TimeoutExpired:
            return None
        finally:
            self.kill()

    def kill(self) -> None:
        """At once, whatever it does."""
        self.process.kill()
        self.process.wait()
        self._thread.join(5)
        if self.process.stdout:
            self.process.stdout.close()

    def complaints(self) -> str:
        """What went to standard error."""
        return self._complaints.read_text(errors="replace")

    def _listen(self) -> None:
        assert self.process.stdout is not None
        for text in self.process.stdout:
            self.lines.append(Line(time.monotonic(), text.rstrip()))


def _bound_by_permissions() -> list[str]:
    if not hasattr(os, "geteuid") or os.geteuid() != 0 or not shutil.which("setpriv"):
        return []
    return ["setpriv", f"--bounding-set={_BOUND}", f"--inh-caps={_BOUND}"]
