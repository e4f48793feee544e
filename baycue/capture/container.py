"""A video file's container: opening it, its picture track, and what is wrong with it."""

from pathlib import Path

import av
from av.container.input import InputContainer
from av.video.stream import VideoStream

from baycue.errors import DamagedRecordingError, NotAVideoError, RecordingError

_STILL_FORMATS = ("tty", "image2", "_pipe")
"""Formats FFmpeg plays although the file is a text or a still picture."""


def open_container(path: Path) -> InputContainer:
    """Open a video file.

    Raises:
        RecordingError: missing, a directory, unreadable, or not a video.
    """
    if not path.exists():
        raise RecordingError(f"{path}: no such file; check the name and the folder")
    if path.is_dir():
        raise RecordingError(f"{path}: is a folder; name one recording in it")
    try:
        container = av.open(str(path), "r", metadata_errors="replace")
    except PermissionError:
        raise RecordingError(f"{path}: may not be read; check the file's permissions") from None
    except (av.FFmpegError, OSError):
        raise DamagedRecordingError(_why_not_opened(path)) from None
    if any(mark in container.format.name for mark in _STILL_FORMATS):
        container.close()
        raise NotAVideoError(f"{path}: is not a video; give an MP4, MOV, MKV, WebM or AVI file")
    return container


def video_stream(path: Path, container: InputContainer) -> VideoStream:
    """The first moving-picture stream; cover art does not count.

    Raises:
        RecordingError: there is none.
    """
    for stream in container.streams.video:
        if not stream.disposition & av.stream.Disposition.attached_pic:
            stream.thread_type = av.codec.context.ThreadType.AUTO
            return stream
    raise NotAVideoError(f"{path}: has no picture track, only sound or data; record it again")


def square_pixel_size(stream: VideoStream, width: int, height: int) -> tuple[int, int]:
    """The coded size with the width stretched until pixels are square."""
    aspect = stream.sample_aspect_ratio
    return (round(width * aspect) if aspect else width), height


def count_readable(path: Path) -> int:
    """How many frames decode before the first failure."""
    count = 0
    with open_container(path) as container:
        try:
            for frame in container.decode(video_stream(path, container)):
                if frame.is_corrupt:
                    break
                count += 1
        except (av.FFmpegError, OSError):
            pass
    return count


def cut_off(path: Path, readable: int, expected: int | None = None) -> RecordingError:
    """The error for a recording that cannot be read to its end."""
    of_all = f" of {expected}" if expected and expected > readable else ""
    return DamagedRecordingError(
        f"{path}: damaged or cut off, only {readable}{of_all} frames are readable; "
        "copy or record it again"
    )


def _why_not_opened(path: Path) -> str:
    size = path.stat().st_size
    if size == 0:
        return f"{path}: the file is empty (0 bytes); record or copy it again"
    with path.open("rb") as file:
        head = file.read(12)
    if head[4:8] == b"ftyp":
        return (
            f"{path}: cut off before its end, 0 frames are readable (the MP4 index is missing); "
            "copy or record it again"
        )
    return f"{path}: is not a video; give an MP4, MOV, MKV, WebM or AVI file"
