"""Frames from a video file, at the times they were taken."""

from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import Self

import av
import cv2
import numpy as np
from av.video.frame import VideoFrame

from baycue.capture.container import cut_off, open_container, square_pixel_size, video_stream
from baycue.capture.frame import Frame, Picture
from baycue.capture.prefetch import Prefetch
from baycue.capture.probe import probe
from baycue.errors import NotAVideoError

_FRAMES_AHEAD = 8
_UPRIGHT = {
    90: cv2.ROTATE_90_COUNTERCLOCKWISE,
    180: cv2.ROTATE_180,
    270: cv2.ROTATE_90_CLOCKWISE,
}


class RecordingSource:
    """A ``FrameSource`` that plays a video file from its start, as fast as it is asked.

    Decoding runs in a background thread, at most 8 frames ahead; no frame is lost.  Stamps
    come from the file's own clock and start at 0; a frame stamped no later than the one
    before is dropped and counted.  Pictures are turned upright and given square pixels.
    Each ``iter`` starts anew from the first frame; only one runs at a time.

    Raises:
        RecordingError: on opening, what ``probe`` finds; while iterating, damage, with the
            number of frames that were readable.
    """

    def __init__(self, path: Path) -> None:
        self.path = path
        self._facts = probe(path)
        self._dropped = 0
        self._prefetch: Prefetch[Frame] | None = None

    @property
    def width_px(self) -> int:
        """Width of every picture, px."""
        return self._facts.width_px

    @property
    def height_px(self) -> int:
        """Height of every picture, px."""
        return self._facts.height_px

    @property
    def nominal_fps(self) -> float:
        """Frames a second, measured from the stamps."""
        return self._facts.nominal_fps

    @property
    def frame_count(self) -> int:
        """Coded frames in the file; ``dropped_frames`` fewer are handed out."""
        return self._facts.frame_count

    @property
    def dropped_frames(self) -> int:
        """Frames dropped so far because their stamp did not increase."""
        return self._dropped

    def __iter__(self) -> Iterator[Frame]:
        self.close()
        self._dropped = 0
        self._prefetch = Prefetch(self._decode, _FRAMES_AHEAD, f"decode {self.path.name}")
        return self._prefetch

    def close(self) -> None:
        """Stop decoding; a second call does nothing."""
        if self._prefetch is not None:
            self._prefetch.close()
            self._prefetch = None

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        self.close()

    def _decode(self) -> Iterator[Frame]:
        first: Fraction | None = None
        last_ns = -1
        count = 0
        for video_frame, picture in self._pictures():
            if first is None:
                first = _time_s(self.path, video_frame)
            stamp_ns = round((_time_s(self.path, video_frame) - first) * 1_000_000_000)
            if stamp_ns <= last_ns:
                self._dropped += 1
                continue
            yield Frame(count, stamp_ns, picture)
            last_ns = stamp_ns
            count += 1

    def _pictures(self) -> Iterator[tuple[VideoFrame, Picture]]:
        """Every frame of the file, decoded and upright."""
        readable = 0
        with open_container(self.path) as container:
            stream = video_stream(self.path, container)
            try:
                for frame in container.decode(stream):
                    if frame.is_corrupt:
                        raise cut_off(self.path, readable, self.frame_count)
                    size = square_pixel_size(stream, frame.width, frame.height)
                    yield frame, _picture(frame, size)
                    readable += 1
            except (av.FFmpegError, OSError):
                raise cut_off(self.path, readable, self.frame_count) from None


def _picture(frame: VideoFrame, size: tuple[int, int]) -> Picture:
    """The frame as (height, width, 3) BGR, read-only, upright, ``size`` before turning."""
    picture: Picture = np.asarray(
        frame.to_ndarray(format="bgr24", width=size[0], height=size[1]), dtype=np.uint8
    )
    turn = _UPRIGHT.get(frame.rotation % 360)
    if turn is not None:
        picture = np.asarray(cv2.rotate(picture, turn), dtype=np.uint8)
    picture.flags.writeable = False
    return picture


def _time_s(path: Path, frame: VideoFrame) -> Fraction:
    """The frame's presentation time, seconds, exact."""
    if frame.pts is None or frame.time_base is None:
        raise NotAVideoError(f"{path}: its frames carry no times; convert it to MP4 first")
    return frame.pts * Fraction(frame.time_base)
