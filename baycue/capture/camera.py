"""A camera that never stops: drained by a thread of its own, and opened again when lost."""

import threading
import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from baycue.capture.feed import Feed, OpenFeed
from baycue.capture.pace import Pace
from baycue.capture.reconnect import wait_before_try_ns
from baycue.capture.ring import Bounds, Ring
from baycue.capture.shot import Content, Shot
from baycue.capture.steady import SteadyClock
from baycue.capture.watchdog import Patience, Watchdog, fingerprint
from baycue.errors import CameraLostError, FeedEndedError

SHOTS_KEPT = Bounds(seconds=6.0, total_bytes=256 << 20)
"""A whole swing of JPEGs; of plain 720p pictures the last 97: 1.6 s at 60 a second."""

_STUCK_NS = 15_000_000_000
Clock = Callable[[], int]


@dataclass(frozen=True, slots=True)
class CameraStatus:
    """The camera as it is.

    ``trouble``: why it is offline.  ``got``: what was opened.  ``dropped``: frames that
    left a gap between stamps, and frames read but of no use, because their stamp did not increase
    or nothing was in them.  ``ended``: a file is
    over.
    """

    online: bool = False
    trouble: str = "not opened yet"
    got: str = ""
    fps: float | None = None
    frames: int = 0
    dropped: int = 0
    times_opened: int = 0
    ended: bool = False


class LiveCamera:
    """Puts every picture of a camera into ``ring``, stamped right after the read.

    Nothing downstream can hold the reading up.  A camera that fails, hangs or repeats itself
    is closed and opened again, at a pace; one whose driver never comes back from a read is
    left to itself and opened anew.
    """

    def __init__(
        self,
        open_feed: OpenFeed,
        patience: Patience | None = None,
        bounds: Bounds = SHOTS_KEPT,
        clock: Clock = time.monotonic_ns,
    ) -> None:
        self.ring: Ring[Shot] = Ring(bounds)
        self._open_feed, self._clock = open_feed, SteadyClock(clock)
        self._patience = patience or Patience()
        self._lock = threading.Lock()
        self._status = CameraStatus()
        self._watchdog = Watchdog(self._patience, self._clock())
        self._pace = Pace()
        self._last_ns = -1
        self._stop = threading.Event()
        self._drain = self._start_draining()

    def status(self) -> CameraStatus:
        """How the camera does now; also gives up on a read that never comes back."""
        now_ns = self._clock()
        with self._lock:
            trouble = "it is over" if self._status.ended else self._watchdog.trouble(now_ns)
            fps = None if trouble else self._pace.fps
            dropped = self._status.dropped + self._pace.missing
            status = replace(self._status, online=trouble is None, fps=fps, dropped=dropped)
            heard_ns = self._watchdog.newest_ns or self._watchdog.opened_ns
        if status.online:
            return replace(status, trouble="")
        if now_ns - heard_ns > _STUCK_NS and self._drain.is_reading and not status.ended:
            self._leave_to_itself(now_ns)
        return replace(status, trouble=self._status.trouble or trouble or "")

    def close(self) -> None:
        """Stop reading; waits shortly for a read that is under way."""
        self._stop.set()
        self._drain.stop.set()
        self._drain.thread.join(3.0)

    def _start_draining(self) -> "_Drain":
        drain = _Drain()
        drain.thread = threading.Thread(
            target=self._run, args=(drain,), name="capture", daemon=True
        )
        drain.thread.start()
        return drain

    def _leave_to_itself(self, now_ns: int) -> None:
        self._drain.stop.set()
        with self._lock:
            self._watchdog = self._watchdog_anew(now_ns)
        self._drain = self._start_draining()

    def _run(self, drain: "_Drain") -> None:
        failures = 0
        while not drain.stop.wait(wait_before_try_ns(failures) / 1e9):
            try:
                self._read_until_it_fails(drain)
            except FeedEndedError as end:
                self._tell(trouble=str(end), ended=True)
                return
            except Exception as error:  # whatever a driver throws, the session goes on
                failures = 1 if drain.frames > 0 else failures + 1
                if not drain.stop.is_set():
                    self._tell(trouble=str(error) or type(error).__name__)

    def _read_until_it_fails(self, drain: "_Drain") -> None:
        drain.frames, drain.is_reading = 0, True
        feed = self._open_feed()
        try:
            self._opened(feed)
            while not drain.stop.is_set():
                content = feed.read()
                self._take(content, self._clock(), drain)
        finally:
            drain.is_reading = False
            feed.close()

    def _opened(self, feed: Feed) -> None:
        with self._lock:
            self._watchdog = self._watchdog_anew(self._clock())
            self._pace = Pace(missing=self._pace.missing)
        self._tell(trouble="", got=feed.describe(), times_opened=self._status.times_opened + 1)

    def _watchdog_anew(self, now_ns: int) -> Watchdog:
        return Watchdog(self._patience, now_ns, fingerprint=self._watchdog.fingerprint)

    def _take(self, content: Content, stamp_ns: int, drain: "_Drain") -> None:
        if drain.stop.is_set():
            return
        mark = fingerprint(content)
        with self._lock:
            self._watchdog = self._watchdog.after(stamp_ns, mark)
            frozen = self._watchdog.is_frozen()
            self._pace = self._pace.after(stamp_ns)
        if frozen:
            raise CameraLostError(f"the camera hangs: {self._watchdog.trouble(stamp_ns)}")
        self._keep(content, stamp_ns)
        drain.frames += 1

    def _keep(self, content: Content, stamp_ns: int) -> None:
        index = self._status.frames
        useless = stamp_ns <= self._last_ns or len(content) == 0
        self._tell(frames=index + 1, dropped=self._status.dropped + useless)
        if not useless:
            self._last_ns = stamp_ns
            self.ring.put(Shot(index, stamp_ns, content))

    def _tell(self, **facts: str | int | bool) -> None:
        with self._lock:
            self._status = replace(self._status, **facts)  # type: ignore[arg-type]


class _Drain:
    """One capture thread: how to stop it, whether it is in a read, what it has read."""

    def __init__(self) -> None:
        self.stop = threading.Event()
        self.thread: threading.Thread
        self.is_reading = False
        self.frames = 0
