"""Look a recording over before it is played: is it whole, and how fast was it taken?"""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import av
import numpy as np
from av.container.input import InputContainer
from av.video.stream import VideoStream

from baycue.capture.container import (
    count_readable,
    cut_off,
    open_container,
    square_pixel_size,
    video_stream,
)
from baycue.errors import NotAVideoError, SlowRecordingError

LOWEST_FPS = 24.0
_NTSC_24_FPS = 24000 / 1001
"""What "24" means on many cameras (23.976); accepted as 24."""


@dataclass(frozen=True, slots=True)
class RecordingFacts:
    """What a recording is, found without decoding it all.

    ``width_px`` and ``height_px`` are as displayed, after ``rotation_deg`` (counterclockwise,
    a multiple of 90) and with square pixels.  ``frame_count`` is the number of coded frames.
    """

    width_px: int
    height_px: int
    rotation_deg: int
    frame_count: int
    nominal_fps: float


def probe(path: Path) -> RecordingFacts:
    """Read the recording's index and first frame.

    Raises:
        RecordingError: missing, a directory, not a video, no video stream, no frames,
            cut off, or under 24 frames a second.
    """
    with open_container(path) as container:
        stream = video_stream(path, container)
        times_s = _packet_times_s(path, container, stream)
        if not times_s:
            raise NotAVideoError(f"{path}: the video holds no frames; record it again")
        fps = measured_fps(times_s)
        _refuse_cut_off(path, container, stream, times_s, fps)
        _refuse_slow(path, len(times_s), fps)
        width, height, rotation = _displayed_size(path)
    return RecordingFacts(width, height, rotation, len(times_s), fps)


def measured_fps(times_s: Sequence[float]) -> float:
    """Frames a second from sorted stamps: the mean of the intervals near their median.

    The median sets aside pauses and dropped frames; the mean undoes the rounding of
    containers that keep whole milliseconds.  Of two in the middle the shorter counts, so that
    one of the intervals is near it.  0.0 if there are fewer than two stamps.
    """
    intervals = np.diff(np.asarray(times_s, dtype=np.float64))
    intervals = intervals[intervals > 0]
    if intervals.size == 0:
        return 0.0
    median = np.sort(intervals)[(intervals.size - 1) // 2]
    near = intervals[np.abs(intervals - median) <= 0.5 * median]
    return float(1.0 / near.mean())


def _packet_times_s(path: Path, container: InputContainer, stream: VideoStream) -> list[float]:
    """Presentation times of all coded frames, sorted, seconds."""
    times: list[float] = []
    try:
        for packet in container.demux(stream):
            ticks = packet.pts if packet.pts is not None else packet.dts
            if packet.size and ticks is not None and not packet.is_discard:
                times.append(float(ticks * packet.time_base))
    except (av.FFmpegError, OSError):
        raise cut_off(path, count_readable(path)) from None
    return sorted(times)


def _refuse_cut_off(
    path: Path, container: InputContainer, stream: VideoStream, times_s: list[float], fps: float
) -> None:
    size = path.stat().st_size
    name = container.format.name
    if "mp4" in name:
        if any(entry.pos + entry.size > size for entry in stream.index_entries):
            raise cut_off(path, count_readable(path), stream.frames)
    elif "avi" in name and len(times_s) < stream.frames:
        raise cut_off(path, count_readable(path), stream.frames)
    elif "matroska" in name and fps:
        expected = round(_tagged_duration_s(stream) * fps)
        if len(times_s) < expected - 2 and times_s[-1] + 2 / fps < _tagged_duration_s(stream):
            raise cut_off(path, count_readable(path), expected)


def _tagged_duration_s(stream: VideoStream) -> float:
    """The length a Matroska track claims in its DURATION tag ("00:00:02.5"); 0.0 if none."""
    total = 0.0
    for part in stream.metadata.get("DURATION", "0").strip("\0 ").split(":"):
        try:
            total = total * 60 + float(part)
        except ValueError:
            return 0.0
    return total


def _refuse_slow(path: Path, frame_count: int, fps: float) -> None:
    if fps == 0.0:
        raise NotAVideoError(
            f"{path}: holds {frame_count} frame, a still picture; record a video of the swing"
        )
    if fps < _NTSC_24_FPS - 0.01:
        raise SlowRecordingError(
            f"{path}: runs at {fps:.1f} frames a second, and {LOWEST_FPS:g} is the least; "
            "set the camera to 60 or more"
        )


def _displayed_size(path: Path) -> tuple[int, int, int]:
    """(width px, height px, rotation deg) of the first frame as displayed."""
    with open_container(path) as container:
        stream = video_stream(path, container)
        try:
            frame = next(container.decode(stream))
        except (StopIteration, av.FFmpegError, OSError):
            raise cut_off(path, 0) from None
        width, height = square_pixel_size(stream, frame.width, frame.height)
    turned = frame.rotation % 180 == 90
    return (height, width, frame.rotation) if turned else (width, height, frame.rotation)
