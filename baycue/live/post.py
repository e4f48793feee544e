"""Messages from process to process; a picture goes once, and is then told by its number.

A still is expected first, then shown, and while a swing comes back to the ball there is no time
to copy a quarter of a megabyte again.
"""

import pickle
from collections.abc import Callable
from dataclasses import dataclass
from io import BytesIO
from itertools import islice
from multiprocessing.connection import Connection
from typing import Any

import numpy as np

from baycue.club.background import GreyPicture

_REMEMBERED = 64
"""Pictures, newest first, that are told by their number: a second at 60 frames a second."""


@dataclass(frozen=True, slots=True)
class _Picture:
    number: int
    grey: GreyPicture


class Sender:
    """Sends by ``wire``; used by one thread."""

    def __init__(self, wire: Connection) -> None:
        self._wire = wire
        # The pictures themselves too: an id is another picture's as soon as one is let go of.
        self._sent: dict[int, _Picture] = {}
        self._count = 0

    def send(self, message: object) -> None:
        """In order; waits while the other side has too much to read."""
        packed = BytesIO()
        _Pickler(packed, self._number).dump(message)
        self._wire.send_bytes(packed.getbuffer())

    def _number(self, grey: GreyPicture) -> int:
        known = self._sent.get(id(grey))
        if known is not None:
            return known.number
        picture = _Picture(self._count, grey)
        self._wire.send(picture)
        self._count += 1
        self._sent[id(grey)] = picture
        for old in [*islice(self._sent, max(len(self._sent) - _REMEMBERED, 0))]:
            del self._sent[old]
        return picture.number


class Receiver:
    """Receives what a ``Sender`` sends; used by one thread."""

    def __init__(self, wire: Connection) -> None:
        self._wire = wire
        self._known: dict[int, GreyPicture] = {}

    def poll(self) -> bool:
        """Whether something has come."""
        return self._wire.poll()

    def recv(self) -> Any:
        """The next message; raises EOFError when there will be none."""
        while True:
            unpacked = _Unpickler(BytesIO(self._wire.recv_bytes()), self._known).load()
            if not isinstance(unpacked, _Picture):
                break
            self._known[unpacked.number] = unpacked.grey
        # Only now: one message may bring more pictures than are remembered.
        for old in [*islice(self._known, max(len(self._known) - 2 * _REMEMBERED, 0))]:
            del self._known[old]
        return unpacked


class _Pickler(pickle.Pickler):
    def __init__(self, file: BytesIO, number: Callable[[GreyPicture], int]) -> None:
        super().__init__(file, pickle.HIGHEST_PROTOCOL)
        self._number = number

    def persistent_id(self, thing: Any) -> int | None:
        """The number of a grey picture; nothing else has one."""
        is_picture = isinstance(thing, np.ndarray) and thing.dtype == np.uint8 and thing.ndim == 2
        return self._number(thing) if is_picture else None


class _Unpickler(pickle.Unpickler):
    def __init__(self, file: BytesIO, known: dict[int, GreyPicture]) -> None:
        super().__init__(file)
        self._known = known

    def persistent_load(self, number: Any) -> GreyPicture:
        """The grey picture of that number."""
        return self._known[number]
