"""Write pictures to a clip that plays at the speed they were taken."""

from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import Self

import av
import cv2
from av.video.frame import VideoFrame
from av.video.reformatter import ColorRange, Colorspace

from baycue.capture.frame import Frame, Picture
from baycue.errors import ExistsError, OutputError

TICKS_PER_S = 90_000
"""Clock of the written clip: a stamp is kept to within 1/90000 s (11.1 microseconds)."""

_CRASH_SAFE = {"movflags": "hybrid_fragmented+frag_keyframe", "flush_packets": "1"}
_KEYFRAME_EVERY = 30


def ticks(stamp_ns: int) -> int:
    """The stamp on the clip's clock, rounded to the nearest 1/90000 s."""
    return (stamp_ns * TICKS_PER_S + 500_000_000) // 1_000_000_000


class ClipWriter:
    """H.264 in MP4, each picture at its own time; encoded as it arrives.

    Until ``close`` the clip is called ``<name>.partial``, readable even after a crash;
    the first picture written becomes time 0.  ``crf`` is libx264's quality: 0 loses only
    colour resolution, 18 looks lossless, 28 is coarse.  An odd width or height is padded
    by one repeated column or row, because 4:2:0 video needs even sides.

    Used as a context manager; leaving it by an exception keeps the ``.partial``.

    Raises:
        OutputError: the clip or its ``.partial`` exists already, the folder is missing,
            nothing was written, or the disk refuses.
    """

    def __init__(
        self,
        path: Path,
        width_px: int,
        height_px: int,
        *,
        crf: int = 18,
        preset: str = "veryfast",
    ) -> None:
        self.path = path
        self.partial_path = path.with_name(path.name + ".partial")
        self.width_px = width_px
        self.height_px = height_px
        self.frames_written = 0
        self._first_ns = 0
        self._last_tick = -1
        self._reserve()
        self._container = av.open(str(self.partial_path), "w", format="mp4", options=_CRASH_SAFE)
        self._stream = self._container.add_stream(
            "libx264", rate=30, options={"crf": str(crf), "preset": preset}
        )
        self._stream.width = width_px + width_px % 2
        self._stream.height = height_px + height_px % 2
        self._stream.pix_fmt = "yuv420p"
        self._stream.codec_context.gop_size = _KEYFRAME_EVERY
        self._stream.codec_context.max_b_frames = 0  # reordering would shift the first stamp
        self._stream.codec_context.colorspace = Colorspace.ITU601
        self._stream.codec_context.color_range = ColorRange.MPEG
        self._stream.codec_context.time_base = Fraction(1, TICKS_PER_S)
        self._open = True

    def write(self, frame: Frame) -> None:
        """Append one frame; its picture must have the writer's size.

        Raises:
            ValueError: wrong picture size, or a stamp not later than the one before.
            OutputError: the clip cannot be written to.
        """
        yuv = cv2.cvtColor(self._padded(frame.picture_bgr), cv2.COLOR_BGR2YUV_I420)
        video_frame = VideoFrame.from_ndarray(yuv.astype("uint8", copy=False), format="yuv420p")
        video_frame.pts = self._next_tick(frame.stamp_ns)
        video_frame.time_base = Fraction(1, TICKS_PER_S)
        self._encode(video_frame)
        self.frames_written += 1

    def close(self) -> None:
        """Finish the clip and give it its name; a second call does nothing."""
        if not self._open:
            return
        self._finish()
        if self.frames_written == 0:
            self.partial_path.unlink()
            raise OutputError(f"{self.path}: no clip was written, because no picture came")
        _refuse_existing(self.path)
        self.partial_path.rename(self.path)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self,
        error_type: type[BaseException] | None,
        error: BaseException | None,
        traceback: TracebackType | None,
    ) -> None:
        if error_type is None:
            self.close()
        elif self._open:
            self._finish()

    def _reserve(self) -> None:
        """Claim the two names, so that two writers can never share a file."""
        _refuse_existing(self.path)
        try:
            self.partial_path.open("xb").close()
        except FileExistsError:
            raise ExistsError(
                f"{self.partial_path}: left over from a recording that was cut off; "
                "rename it to keep it, or delete it"
            ) from None
        except OSError as error:
            raise OutputError(
                f"{self.path}: cannot be written ({error.strerror}); choose a folder that "
                "exists and that you may write to"
            ) from None

    def _padded(self, picture: Picture) -> Picture:
        if picture.shape != (self.height_px, self.width_px, 3):
            raise ValueError(
                f"picture shape {picture.shape}, expected ({self.height_px}, {self.width_px}, 3)"
            )
        odd_rows, odd_columns = self.height_px % 2, self.width_px % 2
        if not (odd_rows or odd_columns):
            return picture
        padded: Picture = cv2.copyMakeBorder(
            picture, 0, odd_rows, 0, odd_columns, cv2.BORDER_REPLICATE
        ).astype("uint8", copy=False)
        return padded

    def _next_tick(self, stamp_ns: int) -> int:
        if self.frames_written == 0:
            self._first_ns = stamp_ns
        tick = ticks(stamp_ns - self._first_ns)
        if tick <= self._last_tick:
            raise ValueError(f"stamp {stamp_ns} ns is not later than the frame before")
        self._last_tick = tick
        return tick

    def _encode(self, video_frame: VideoFrame | None) -> None:
        try:
            self._container.mux(self._stream.encode(video_frame))
        except (av.FFmpegError, OSError) as error:
            raise OutputError(
                f"{self.partial_path}: writing stopped after {self.frames_written} frames "
                f"({error.strerror}); free some disk space, what was written is kept"
            ) from None

    def _finish(self) -> None:
        """Flush the encoder and close the file, keeping it under its partial name."""
        self._open = False
        try:
            if self.frames_written:
                self._encode(None)
        finally:
            self._container.close()


def _refuse_existing(path: Path) -> None:
    if path.exists():
        raise ExistsError(f"{path}: exists already and is never overwritten; choose another name")
