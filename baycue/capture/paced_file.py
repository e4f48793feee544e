"""A recording played at its own speed, as if a camera were taking it now."""

import time
from collections.abc import Callable, Iterator
from pathlib import Path

from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.capture.shot import Content
from baycue.errors import FeedEndedError, RecordingError


class PacedFileFeed:
    """A ``Feed`` that hands out each frame when its time has come.

    Stamps are those of the reading clock, so a frame read late is stamped late, as a camera's
    would be.  Raises RecordingError for a file that cannot be played.
    """

    def __init__(
        self,
        path: Path,
        now_ns: Callable[[], int] = time.monotonic_ns,
        sleep: Callable[[float], None] = time.sleep,
    ) -> None:
        self._source = RecordingSource(path)
        self._now_ns, self._sleep = now_ns, sleep
        self._frames: Iterator[Frame] = iter(self._source)
        self._start_ns: int | None = None

    def read(self) -> Content:
        """The next frame, at its time; FeedEndedError after the last that can be read."""
        frame = self._next()
        if self._start_ns is None:
            self._start_ns = self._now_ns() - frame.stamp_ns
        early_ns = self._start_ns + frame.stamp_ns - self._now_ns()
        if early_ns > 0:
            self._sleep(early_ns / 1e9)
        return frame.picture_bgr

    def _next(self) -> Frame:
        try:
            return next(self._frames)
        except StopIteration:
            raise FeedEndedError(f"{self._source.path}: played to its end") from None
        except RecordingError as error:
            raise FeedEndedError(str(error)) from None

    def close(self) -> None:
        """Stop decoding; a second call does nothing."""
        self._source.close()

    def describe(self) -> str:
        """File, size and rate."""
        source = self._source
        size = f"{source.width_px}x{source.height_px}"
        return f"{source.path.name}, {size}, {source.nominal_fps:.1f} frames a second, as if live"
