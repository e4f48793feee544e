"""A clock that never goes back, whatever the one below it does."""

import threading
from collections.abc import Callable


class SteadyClock:
    """Goes on from where it was when ``clock`` is set back; used by any thread."""

    def __init__(self, clock: Callable[[], int]) -> None:
        self._clock, self._lock = clock, threading.Lock()
        self._last_ns, self._behind_ns = clock(), 0

    def __call__(self) -> int:
        """Now, ns."""
        with self._lock:
            now_ns = self._clock() + self._behind_ns
            self._behind_ns += max(self._last_ns - now_ns, 0)
            self._last_ns = max(self._last_ns, now_ns)
            return self._last_ns
