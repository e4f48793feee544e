"""Watches workers from outside: one that says nothing for too long is killed, whatever it is in.

What counts is the processor time that the worker has had, so that a busy machine is no finding;
one that only waits is killed too, after ten times as long.
"""

import json
import os
import select
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from types import TracebackType
from typing import Any, Self

LIMIT_S = 2.0
"""Of processor time, for one input."""
_PATIENCE = 10
_START_S = 120.0
_LOOK_EVERY_S = 0.2
_IN_MEMORY = "/dev/shm" if Path("/dev/shm").is_dir() else None
"""Where inputs are tried: a disk would be asked to write each of them for good."""
_TICKS_A_SECOND = os.sysconf("SC_CLK_TCK")


@dataclass(frozen=True, slots=True)
class Fed:
    """How one input went: ``taken``, ``refused``, ``failed``, ``hung`` or ``died``."""

    number: int
    how: str
    why: str = ""

    @property
    def is_finding(self) -> bool:
        """Whether it should not have gone so."""
        return self.how not in ("taken", "refused")


def fed(target: str, seed: int, numbers: range) -> Iterator[Fed]:
    """Every input of these numbers, in workers that are replaced when they hang or die."""
    first = numbers.start
    while first < numbers.stop:
        for answer in _one_worker(target, seed, range(first, numbers.stop)):
            yield answer
            first = answer.number + 1


def _one_worker(target: str, seed: int, numbers: range) -> Iterator[Fed]:
    """Until all are done, or the worker is gone."""
    with _Worker(target, seed, numbers) as worker:
        number, limit_s = numbers.start, _START_S
        while True:
            words = worker.line(limit_s)
            if words is None:
                yield Fed(number, *worker.end())
                return
            how, *why, number = words
            if how == "done":
                return
            limit_s = LIMIT_S if how == "begun" else _START_S
            if how != "begun":
                yield Fed(number, how, *why)


class _Worker:
    """A process with a pipe to hear it by."""

    def __init__(self, target: str, seed: int, numbers: range) -> None:
        self._folder = Path(tempfile.mkdtemp(prefix="baycue_fuzz_", dir=_IN_MEMORY))
        ours, theirs = os.pipe()
        words = (target, seed, numbers.start, numbers.stop, self._folder / "arena")
        self._errors = (self._folder / "errors").open("w+b")
        self._process = subprocess.Popen(
            ["bash", "-c", f'exec "$@" 3>&{theirs}', "worker", sys.executable, "-m",
             "tests.fuzz.worker", *map(str, words)],
            stdout=subprocess.DEVNULL,
            stderr=self._errors,
            pass_fds=(theirs,),
        )  # fmt: skip
        os.close(theirs)
        self._heard, self._rest = ours, b""

    def line(self, limit_s: float) -> list[Any] | None:
        """What it says next; None if that does not come in time, or never will."""
        waits_until = time.monotonic() + _PATIENCE * limit_s
        works_until = self._worked_s() + limit_s
        while b"\n" not in self._rest:
            ready, _, _ = select.select([self._heard], [], [], _LOOK_EVERY_S)
            if ready:
                more = os.read(self._heard, 1 << 16)
                if not more:
                    return None
                self._rest += more
            elif time.monotonic() > waits_until or self._worked_s() > works_until:
                return None
        line, _, self._rest = self._rest.partition(b"\n")
        words: list[Any] = json.loads(line)
        return words

    def _worked_s(self) -> float:
        """The processor time that it has had, all its threads together."""
        stat = Path(f"/proc/{self._process.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(stat[11]) + int(stat[12])) / _TICKS_A_SECOND

    def end(self) -> tuple[str, str]:
        """Why it said no more."""
        try:
            code = self._process.wait(0.2)
        except subprocess.TimeoutExpired:
            return "hung", f"over {LIMIT_S:g} s of work, or {_PATIENCE * LIMIT_S:g} s of waiting"
        self._errors.seek(0)
        return "died", f"exit code {code}: {self._errors.read()[-2000:].decode(errors='replace')}"

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self._process.kill()
        self._process.wait()
        os.close(self._heard)
        self._errors.close()
        shutil.rmtree(self._folder, ignore_errors=True)
