"""An ear at the loudspeaker: what a sound card sounds, recorded, and when each tone set in."""

import os
import subprocess
import threading
import time
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.cues.tones import RATE_HZ, Samples
from baycue.rehearsal.surroundings import SINK

_AUDIBLE = 1e-3
"""-60 dBFS; a tone's first 8 ms swell reaches it within half a millisecond."""
_QUIET_S = 0.3
_BLOCK_BYTES = 4 * 240


@dataclass(frozen=True, slots=True)
class Arrival:
    """So many samples had been recorded when the clock said so."""

    samples: int
    at_ns: int


class Ear:
    """Records a sink's monitor; ``stop`` before asking for ``onsets_ns``.

    ``env``: where the sound server is; None for this process's own surroundings.
    """

    def __init__(self, env: Mapping[str, str] | None = None) -> None:
        command = ["parec", "-d", f"{SINK}.monitor", "--raw", "--format=float32le"]
        command += ["--channels=1", f"--rate={RATE_HZ}", "--latency-msec=5"]
        self._process = subprocess.Popen(
            command, stdout=subprocess.PIPE, env={**os.environ, **(env or {})}
        )
        self._blocks: list[bytes] = []
        self._arrivals: list[Arrival] = []
        self._thread = threading.Thread(target=self._listen, name="ear", daemon=True)
        self._thread.start()

    @property
    def hears(self) -> bool:
        """Whether anything, silence too, has come."""
        return bool(self._blocks)

    def stop(self) -> None:
        """End the recording."""
        self._process.terminate()
        self._process.wait(10)
        self._thread.join(10)
        if self._process.stdout:
            self._process.stdout.close()

    def onsets_ns(self) -> list[int]:
        """When each tone set in, on the monotonic clock; the recording's own delay is in it."""
        heard = np.frombuffer(b"".join(self._blocks), dtype="<f4")
        return [sample_time_ns(k, self._arrivals) for k in onsets(heard)]

    def _listen(self) -> None:
        assert self._process.stdout is not None
        count = 0
        while block := self._process.stdout.read1(1 << 16):  # type: ignore[attr-defined]
            self._blocks.append(block)
            count += len(block)
            self._arrivals.append(Arrival(count // 4, time.monotonic_ns()))


@contextmanager
def listening() -> Iterator[Ear]:
    """An ear that already hears."""
    ear = Ear()
    try:
        while not ear.hears:
            time.sleep(0.05)
        yield ear
    finally:
        ear.stop()


def onsets(heard: Samples, quiet_s: float = _QUIET_S) -> list[int]:
    """The first audible sample of each sound that follows a silence."""
    loud: NDArray[np.intp] = np.flatnonzero(np.abs(heard) > _AUDIBLE)
    if not len(loud):
        return []
    first = np.concatenate([[True], np.diff(loud) > quiet_s * RATE_HZ])
    return [int(k) for k in loud[first]]


def sample_time_ns(sample: int, arrivals: Sequence[Arrival]) -> int:
    """When a sample was recorded: the time at which the block that brings it came.

    Never early: whatever the recorder itself held back counts as delay.
    """
    at = next((a for a in arrivals if a.samples > sample), arrivals[-1])
    return at.at_ns - (at.samples - 1 - sample) * 1_000_000_000 // RATE_HZ
