"""A clip's pictures as JPEGs, handed out at the clip's own speed again and again."""

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import cv2

from baycue.capture.frame import Picture
from baycue.capture.recording import RecordingSource

_QUALITY = 90
OnSend = Callable[[int, int], None]


@dataclass(frozen=True, slots=True)
class LoopedClip:
    """JPEGs with the times they are due, ns from the start; ``period_ns`` is one round."""

    jpegs: tuple[bytes, ...]
    due_ns: tuple[int, ...]
    period_ns: int

    def show(self, on_send: OnSend | None = None) -> Iterator[bytes]:
        """Yield each picture when due; ``on_send`` gets its number in all and the time.

        The times are those of the monotonic clock just before a picture is yielded.
        """
        start_ns, number = time.monotonic_ns(), 0
        while True:
            turn, frame = divmod(number, len(self.jpegs))
            due_ns = start_ns + turn * self.period_ns + self.due_ns[frame]
            time.sleep(max(due_ns - time.monotonic_ns(), 0) / 1e9)
            if on_send:
                on_send(number, time.monotonic_ns())
            yield self.jpegs[frame]
            number += 1


def looped_clip(path: Path) -> LoopedClip:
    """Pack a clip; RecordingError if it cannot be read."""
    with RecordingSource(path) as source:
        frames = [(f.stamp_ns, jpeg_of(f.picture_bgr)) for f in source]
        stamps = tuple(stamp for stamp, _ in frames)
        period_ns = stamps[-1] + round(1e9 / source.nominal_fps)
    return LoopedClip(tuple(jpeg for _, jpeg in frames), stamps, period_ns)


def jpeg_of(picture: Picture) -> bytes:
    """The picture packed."""
    good, packed = cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, _QUALITY])
    assert good, "a plain picture can always be packed"
    return packed.tobytes()
