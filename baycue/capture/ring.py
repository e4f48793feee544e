"""The last few seconds of something stamped, bounded in time and in memory."""

import threading
from collections import deque
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar


class Stamped(Protocol):
    """Something that has an index, a stamp and a size in memory."""

    @property
    def index(self) -> int:
        """Counts up by one or more."""

    @property
    def stamp_ns(self) -> int:
        """When it was taken."""

    @property
    def nbytes(self) -> int:
        """Memory held, bytes."""


Item = TypeVar("Item", bound=Stamped)


@dataclass(frozen=True, slots=True)
class Bounds:
    """How much a ring keeps; whichever is reached first."""

    seconds: float
    total_bytes: int


class Ring(Generic[Item]):
    """Every item put in, until it is too old or too much; one thread puts, any may look.

    The newest item is always kept.
    """

    def __init__(self, bounds: Bounds) -> None:
        self.bounds = bounds
        self._items: deque[Item] = deque()
        self._bytes = 0
        self._came = threading.Condition()

    @property
    def total_bytes(self) -> int:
        """Memory held now."""
        return self._bytes

    def __len__(self) -> int:
        return len(self._items)

    def put(self, item: Item) -> None:
        """Add the newest item and let go of the oldest."""
        with self._came:
            self._items.append(item)
            self._bytes += item.nbytes
            oldest_ns = item.stamp_ns - self.bounds.seconds * 1e9
            while len(self._items) > 1 and self._too_much(oldest_ns):
                self._bytes -= self._items.popleft().nbytes
            self._came.notify_all()

    def between(self, since_ns: int, until_ns: int) -> tuple[Item, ...]:
        """The items stamped within both, in order."""
        with self._came:
            return tuple(i for i in self._items if since_ns <= i.stamp_ns <= until_ns)

    def wait_beyond(self, index: int, timeout_s: float) -> tuple[Item, ...]:
        """The items after one with this index, waiting for the first; empty in vain."""
        with self._came:
            self._came.wait_for(lambda: self._newest_index() > index, timeout_s)
            return tuple(i for i in self._items if i.index > index)

    def _too_much(self, oldest_ns: float) -> bool:
        return self._items[0].stamp_ns < oldest_ns or self._bytes > self.bounds.total_bytes

    def _newest_index(self) -> int:
        return self._items[-1].index if self._items else -1
