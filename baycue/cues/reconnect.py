"""Keeps one thing open that may be lost, from a thread of its own."""

import threading
from collections.abc import Callable

_LOOK_S = 0.2
_PAUSES_S = (0.25, 0.5, 1.0, 2.0)
"""Between one try and the next; the last is kept to."""
_CLOSING_S = 2.0


class Keeper:
    """Calls ``reopen`` whenever ``is_alive`` says no, until it says yes again.

    ``reopen`` returns whether it worked; it may take as long as it likes, for nobody waits.
    """

    def __init__(self, is_alive: Callable[[], bool], reopen: Callable[[], bool]) -> None:
        self._is_alive, self._reopen = is_alive, reopen
        self._over = threading.Event()
        self._thread = threading.Thread(target=self._run, name="sound keeper", daemon=True)
        self._thread.start()

    def stop(self) -> None:
        """End the thread; one that hangs in a device is left behind."""
        self._over.set()
        self._thread.join(_CLOSING_S)

    def _run(self) -> None:
        tries = 0
        while not self._over.wait(_PAUSES_S[min(tries, 4) - 1] if tries else _LOOK_S):
            tries = 0 if self._is_alive() or self._reopen() else tries + 1


def finishes(work: Callable[[], None], within_s: float = _CLOSING_S) -> bool:
    """Do it in a thread of its own; False if it does not end in time and is left behind."""
    thread = threading.Thread(target=_quietly, args=(work,), name="sound closing", daemon=True)
    thread.start()
    thread.join(within_s)
    return not thread.is_alive()


def _quietly(work: Callable[[], None]) -> None:
    try:
        work()
    except Exception:
        # A device that is gone may refuse anything, and there is nothing left to save.
        return
