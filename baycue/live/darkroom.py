"""Every frame of a live camera developed: the newest for the pose model, a small one of each."""

import threading
import time
from collections.abc import Callable, Iterator

from baycue.capture.frame import Frame
from baycue.capture.mailbox import Mailbox
from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Shot
from baycue.errors import CameraError
from baycue.live.still import Still, still_of

STILLS_KEPT = Bounds(seconds=6.0, total_bytes=192 << 20)
"""At 720p a still is 0.23 MB: 6 s at up to 135 frames a second."""

_MOST_BEHIND = 6
_LATE_WORK_NS = 120_000_000
_POLL_S = 0.1


class Darkroom:
    """Develops shots in a thread of its own, so that decoding and finding poses overlap.

    ``newest`` holds one frame for whoever finds poses; ``stills`` keeps the last seconds of
    all.  Fallen behind, it skips to the newest; what it skipped is developed when asked for.
    ``on_still``: told of each in the darkroom's own thread.
    """

    def __init__(self, shots: Ring[Shot]) -> None:
        self._shots = shots
        self.stills: Ring[Still] = Ring(STILLS_KEPT)
        self.newest: Mailbox[Frame] = Mailbox()
        self.damaged = 0
        self.on_still: Callable[[Still], None] = _heed_not
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="darkroom", daemon=True)
        self._thread.start()

    def frames(self) -> Iterator[Frame]:
        """The newest frame, again and again, until closed; those in between are skipped."""
        while not self._stop.is_set():
            frame = self.newest.take(_POLL_S)
            if frame is not None:
                yield frame

    def stills_between(self, since_ns: int, until_ns: int) -> tuple[Still, ...]:
        """A still of every frame stamped within both, in order.

        Those skipped are developed now, the newest first, for at most 0.12 s.
        """
        ready = {s.index: s for s in self.stills.between(since_ns, until_ns)}
        until = time.monotonic_ns() + _LATE_WORK_NS
        for shot in reversed(self._shots.between(since_ns, until_ns)):
            if shot.index not in ready and time.monotonic_ns() < until:
                frame = self._develop(shot, count=False)
                if frame is not None:
                    ready[shot.index] = still_of(frame)
        return tuple(ready[index] for index in sorted(ready))

    def close(self) -> None:
        """Stop; wakes whoever waits for a frame."""
        self._stop.set()
        self.newest.close()
        self._thread.join()

    def _run(self) -> None:
        last = -1
        while not self._stop.is_set():
            shots = self._shots.wait_beyond(last, _POLL_S)
            for shot in shots if len(shots) <= _MOST_BEHIND else shots[-1:]:
                last = shot.index
                frame = self._develop(shot)
                if frame is not None:
                    still = still_of(frame)
                    self.stills.put(still)
                    self.newest.put(frame)
                    self.on_still(still)

    def _develop(self, shot: Shot, count: bool = True) -> Frame | None:
        try:
            return shot.developed()
        except CameraError:
            self.damaged += count
            return None


def _heed_not(still: Still) -> None:
    """Nobody is to be told."""
