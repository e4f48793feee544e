"""How a session does, a line of JSON every few seconds, for whoever watches it from outside."""

import ctypes
import json
import os
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from functools import cache
from pathlib import Path
from typing import Any

from baycue.capture.camera import LiveCamera
from baycue.errors import OutputError
from baycue.live.process_scorer import ProcessScorer
from baycue.live.session import Session

EVERY_S = 5.0


@dataclass(frozen=True, slots=True)
class Vitals:
    """As of ``at_ns``, monotonic clock; counts are since the start.

    ``processes``: this one and the one that scores.  ``lost``: frames that the camera left out,
    or that were damaged.  ``answers_ms``: software latency of each swing since the line before,
    None for one that could not be judged.  ``heap_used_mb``, ``heap_free_mb``: what the C library
    has handed out, and what it holds without need; None where it does not tell.
    ``python_blocks``: how many small objects Python holds.
    """

    at_ns: int
    processes: tuple[int, ...]
    frames: int
    lost: int
    times_opened: int
    poses: int
    answers_ms: tuple[float | None, ...]
    heap_used_mb: float | None
    heap_free_mb: float | None
    python_blocks: int


@contextmanager
def written_vitals(path: Path | None, look: Callable[[], Vitals]) -> Iterator[None]:
    """Write while inside, and once more at the end; None writes nothing.

    OutputError if the file is there already.
    """
    if path is None:
        yield
        return
    try:
        path.open("x", encoding="utf-8").close()
    except OSError as error:
        raise OutputError(f"--vitals: {path} cannot be written ({error.strerror})") from None
    stop = threading.Event()
    thread = threading.Thread(target=_write, args=(path, look, stop), name="vitals", daemon=True)
    thread.start()
    try:
        yield
    finally:
        stop.set()
        thread.join()


def answers_of(path: Path) -> Iterator[float | None]:
    """The latencies, ms, in a file that ``written_vitals`` wrote; nothing if there is none."""
    if path.exists():
        for line in path.read_text(encoding="utf-8").splitlines():
            yield from json.loads(line)["answers_ms"]


def _write(path: Path, look: Callable[[], Vitals], stop: threading.Event) -> None:
    with path.open("a", encoding="utf-8") as file:
        goes_on = True
        while goes_on:
            goes_on = not stop.is_set()
            file.write(f"{json.dumps(asdict(look()))}\n")
            file.flush()
            stop.wait(EVERY_S)


def heap_mb() -> tuple[float, float] | tuple[None, None]:
    """Used and free, MB, of all that the GNU C library's ``malloc`` has taken; else None."""
    told = _mallinfo2()
    if told is None:
        return None, None
    info = told()
    return (info.uordblks + info.hblkhd) / 1e6, info.fordblks / 1e6


class SessionVitals:
    """Looks at a session; called by one thread."""

    def __init__(self, session: Session, camera: LiveCamera, scorer: ProcessScorer) -> None:
        self._session, self._camera, self._scorer = session, camera, scorer
        self._answered = 0

    def __call__(self) -> Vitals:
        """As of now."""
        status, session = self._camera.status(), self._session
        scoring, (used_mb, free_mb) = self._scorer.process_id, heap_mb()
        return Vitals(
            at_ns=time.monotonic_ns(),
            processes=(os.getpid(), scoring) if scoring else (os.getpid(),),
            frames=status.frames,
            lost=status.dropped + session.darkroom.damaged,
            times_opened=status.times_opened,
            poses=session.analysis.poses,
            answers_ms=self._new_answers_ms(),
            heap_used_mb=used_mb,
            heap_free_mb=free_mb,
            python_blocks=sys.getallocatedblocks(),
        )

    def _new_answers_ms(self) -> tuple[float | None, ...]:
        """Of the newest swings those are left out whose tone is still to come."""
        new = self._session.answers.told[self._answered :]
        ready = next((k for k, t in enumerate(new) if t.verdict and t.cue_ns is None), len(new))
        self._answered += ready
        return tuple(t.software_ms for t in new[:ready])


class _Mallinfo2(ctypes.Structure):
    _fields_ = tuple(
        (name, ctypes.c_size_t)
        for name in (
            "arena",
            "ordblks",
            "smblks",
            "hblks",
            "hblkhd",
            "usmblks",
            "fsmblks",
            "uordblks",
            "fordblks",
            "keepcost",
        )
    )


@cache
def _mallinfo2() -> Any:
    if sys.platform != "linux":
        return None
    function = getattr(ctypes.CDLL(None), "mallinfo2", None)
    if function is not None:
        function.restype = _Mallinfo2
    return function
