"""Do the next items' work in the background while this one is looked at."""

import queue
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

Item = TypeVar("Item")

_POLL_S = 0.05


@dataclass(frozen=True, slots=True)
class _End:
    """Sent once, last: the producer is done, with the error that stopped it if any."""

    error: BaseException | None


class Prefetch(Generic[Item]):
    """Iterate over what ``produce`` yields, produced in a thread, at most ``depth`` ahead.

    Nothing is lost and the order is kept: a full queue makes the producer wait.  An error in
    the producer is raised here, after the items that came before it.  ``close`` stops the
    thread and waits for it; a second call does nothing.
    """

    def __init__(self, produce: Callable[[], Iterator[Item]], depth: int, name: str) -> None:
        self._produce = produce
        self._items: queue.Queue[Item | _End] = queue.Queue(depth)
        self._stop = threading.Event()
        self._ended = False
        self._thread = threading.Thread(target=self._run, name=name, daemon=True)
        self._thread.start()

    def __iter__(self) -> Iterator[Item]:
        return self

    def __next__(self) -> Item:
        if self._ended or self._stop.is_set():
            raise StopIteration
        item = self._items.get()
        if not isinstance(item, _End):
            return item
        self._ended = True
        raise item.error or StopIteration

    def close(self) -> None:
        """Stop producing and wait for the thread to end."""
        self._stop.set()
        self._thread.join()

    def _run(self) -> None:
        error: BaseException | None = None
        try:
            for item in self._produce():
                if not self._put(item):
                    return
        except BaseException as caught:
            error = caught
        self._put(_End(error))

    def _put(self, item: Item | _End) -> bool:
        """Wait for room; False if closed meanwhile."""
        while not self._stop.is_set():
            try:
                self._items.put(item, timeout=_POLL_S)
            except queue.Full:
                continue
            return True
        return False
