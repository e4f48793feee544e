"""The last seconds of sound, with the time of every sample."""

import threading
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

_JITTER_BLOCKS = 200


@dataclass(frozen=True, slots=True)
class Sound:
    """(n,) samples; ``first_ns``: when the first was delivered, on the monotonic clock."""

    samples: NDArray[np.float32]
    rate_hz: float
    first_ns: int

    @property
    def last_ns(self) -> int:
        """When the last sample was delivered."""
        return self.first_ns + round(len(self.samples) / self.rate_hz * 1e9)


class SoundRing:
    """A ring that the sound card's thread writes and any other reads.

    Blocks are delivered late by the system's whim, never early: so the clock of the samples is
    the earliest that the last blocks agree to.
    """

    def __init__(self, rate_hz: float, seconds: float = 6.0) -> None:
        self._rate_hz = rate_hz
        self._ring = np.zeros(round(rate_hz * seconds), dtype=np.float32)
        self._count = 0
        self._starts_ns: list[int] = []
        self._lock = threading.Lock()

    def write(self, block: NDArray[np.float32], delivered_ns: int) -> None:
        """Take in the next (n,) samples, the last of which was just delivered."""
        with self._lock:
            size = len(self._ring)
            places = np.arange(self._count, self._count + len(block)) % size
            self._ring[places] = block
            self._count += len(block)
            self._starts_ns.append(delivered_ns - round(self._count / self._rate_hz * 1e9))
            del self._starts_ns[:-_JITTER_BLOCKS]

    def last(self, seconds: float) -> Sound:
        """The newest sound, as much as there is."""
        with self._lock:
            length = min(round(seconds * self._rate_hz), self._count, len(self._ring))
            places = np.arange(self._count - length, self._count) % len(self._ring)
            start_ns = min(self._starts_ns, default=0)
            first_ns = start_ns + round((self._count - length) / self._rate_hz * 1e9)
            return Sound(self._ring[places], self._rate_hz, first_ns)
