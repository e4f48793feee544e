"""Pixels for a window in another process: who draws never waits, and nothing torn is shown.

The memory holds the last two pictures.  Before a third is begun its number is noted, so that who
shows a picture sees afterwards whether it was being written over meanwhile.
"""

import struct
from dataclasses import dataclass
from multiprocessing.shared_memory import SharedMemory

BYTES_A_PX = 4
LARGEST_BYTES = 7680 * 4320 * BYTES_A_PX
"""Of the largest screens sold; what is not drawn on takes no memory."""
_SLOTS = 2
_NUMBER = struct.Struct("<Q")
_HEAD_BYTES = 64


@dataclass(frozen=True, slots=True)
class Drawn:
    """Which picture, counted from 1, and its size."""

    number: int
    size_px: tuple[int, int]


class SharedPixels:
    """One side's view of the memory: one side writes, the other reads.

    ``name``: of the memory that the other side has made; None makes it.
    """

    def __init__(self, name: str | None = None) -> None:
        size = _HEAD_BYTES + _SLOTS * LARGEST_BYTES
        self._memory = SharedMemory(name) if name else SharedMemory(create=True, size=size)
        self._written = 0

    @property
    def name(self) -> str:
        """What the other side opens it by."""
        return self._memory.name

    def write(self, pixels: memoryview, size_px: tuple[int, int]) -> Drawn:
        """One more picture, ``BYTES_A_PX`` bytes a pixel; tell the other side of it."""
        drawn = Drawn(self._written + 1, size_px)
        _NUMBER.pack_into(self._buffer, 0, drawn.number)
        place = self.read(drawn)
        place[:] = pixels
        place.release()
        self._written = drawn.number
        return drawn

    def read(self, drawn: Drawn) -> memoryview:
        """Its bytes, to be released; they are only that picture's if it ``is_whole`` afterwards."""
        width, height = drawn.size_px
        start = _HEAD_BYTES + (drawn.number % _SLOTS) * LARGEST_BYTES
        return self._buffer[start : start + width * height * BYTES_A_PX]

    def is_whole(self, drawn: Drawn) -> bool:
        """Whether nothing has been written over it; else a newer one has been told of."""
        (begun,) = _NUMBER.unpack_from(self._buffer, 0)
        return bool(begun < drawn.number + _SLOTS)

    def close(self) -> None:
        """Let go of it."""
        self._memory.close()

    def remove(self) -> None:
        """Let go of it for both sides; by who made it."""
        self._memory.close()
        self._memory.unlink()

    @property
    def _buffer(self) -> memoryview:
        assert self._memory.buf is not None, "it is open until closed"
        return self._memory.buf
