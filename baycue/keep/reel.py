"""The last seconds of a camera as JPEGs, so that a swing's beginning is there when it is known."""

import threading
from collections import deque

from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Shot
from baycue.keep.calm import give_way
from baycue.keep.film import packed_shot

REEL_KEPT = Bounds(seconds=9.0, total_bytes=320 << 20)
"""From before takeaway to the verdict and a little more."""
_WAITING_BYTES = 512 << 20
"""Plain pictures that wait to be packed: 3.2 s of 720p at 60 a second."""
_POLL_S = 0.1


class Reel:
    """Follows a camera's ring in threads of its own, which give way to everything else.

    ``missed``: shots that were gone, or given up, before they could be packed.
    """

    def __init__(self, shots: Ring[Shot], bounds: Bounds = REEL_KEPT) -> None:
        self.shots: Ring[Shot] = Ring(bounds)
        self.missed = 0
        self._camera = shots
        self._waiting: deque[Shot] = deque()
        self._waiting_bytes = 0
        self._changed = threading.Condition()
        self._stop = threading.Event()
        self._threads = [
            threading.Thread(target=work, name=name, daemon=True)
            for work, name in ((self._gather, "reel"), (self._pack, "packing"))
        ]
        for thread in self._threads:
            thread.start()

    def close(self) -> None:
        """Stop; what is there stays there."""
        self._stop.set()
        with self._changed:
            self._changed.notify_all()
        for thread in self._threads:
            thread.join()

    @property
    def is_behind(self) -> bool:
        """Whether pictures wait to be packed."""
        return bool(self._waiting)

    def _gather(self) -> None:
        """Hold on to each shot as soon as it is there; costs next to nothing."""
        last = -1
        while not self._stop.is_set():
            for shot in self._camera.wait_beyond(last, _POLL_S):
                self.missed += shot.index - last - 1 if last >= 0 else 0
                last = shot.index
                self._hold(shot)

    def _hold(self, shot: Shot) -> None:
        with self._changed:
            self._waiting.append(shot)
            self._waiting_bytes += shot.nbytes
            while self._waiting_bytes > _WAITING_BYTES:
                self._waiting_bytes -= self._waiting.popleft().nbytes
                self.missed += 1
            self._changed.notify_all()

    def _pack(self) -> None:
        give_way()
        while not self._stop.is_set():
            with self._changed:
                self._changed.wait_for(lambda: self._waiting or self._stop.is_set(), _POLL_S)
                shot = self._waiting[0] if self._waiting else None
            if shot is not None:
                self.shots.put(packed_shot(shot))
                self._let_go(shot)

    def _let_go(self, shot: Shot) -> None:
        with self._changed:
            if self._waiting and self._waiting[0] is shot:
                self._waiting.popleft()
                self._waiting_bytes -= shot.nbytes
