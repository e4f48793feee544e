"""A whole film again as H.264, at exactly the same times, for when nobody waits for an answer."""

import os
from collections.abc import Callable, Iterator
from contextlib import suppress
from fractions import Fraction
from pathlib import Path

import av
from av.container.output import OutputContainer
from av.video.frame import VideoFrame
from av.video.reformatter import ColorRange, Colorspace
from av.video.stream import VideoStream

from baycue.capture.clip_writer import TICKS_PER_S
from baycue.errors import KeptError, OutputError
from baycue.keep.film import film_of
from baycue.keep.place import PARTIAL
from baycue.keep.record import Film
from baycue.keep.whole import name_whole, sync_folder

SMALL_CODEC = "h264"
QUALITY = {"crf": "24", "preset": "veryfast"}
"""Measured on sample recordings with sensor noise (README): 4.6 and 8.6 times smaller, and what is
measured on the film again is off by 0.3 of its own sigma; at crf 20 2.2 and 3.0 times, by 0.2."""
_KEYFRAME_EVERY = 30
_TICK = Fraction(1, TICKS_PER_S)

GoOn = Callable[[], bool]


def make_small(path: Path, film: Film, small: Path, go_on: GoOn = lambda: True) -> Film | None:
    """Write ``small``, the film at ``path`` as H.264 in MP4, and look whether it is as good.

    ``small`` has its name only when as many pictures at the same times have been decoded from it
    again and it is on the disk; until then it is called ``.partial``.  The old film is not touched.
    None, and no file, if ``go_on``, asked before each picture, says no.

    Raises KeptError if the old film cannot be read to its end, OutputError if the disk refuses.
    """
    partial = small.with_name(small.name + PARTIAL)
    try:
        times = _encoded(path, partial, go_on)
        if times is None or not _is_as_good(path, times, len(film.stamps_ns), partial, go_on):
            partial.unlink(missing_ok=True)
            return None
        with partial.open("rb") as file:
            os.fsync(file.fileno())
        name_whole(partial, small)
        sync_folder(small.parent)
    except (KeptError, av.FFmpegError, OSError) as error:
        partial.unlink(missing_ok=True)
        if isinstance(error, KeptError):
            raise
        raise OutputError(f"{small}: cannot be written ({error.strerror})") from None
    return film_of(small, (film.width_px, film.height_px), film.stamps_ns, SMALL_CODEC)


def picture_times(path: Path) -> list[Fraction]:
    """When each picture that can be decoded is shown, s; KeptError if not all can be."""
    return [_time(frame) for frame in _decoded(path)]


def _encoded(path: Path, partial: Path, go_on: GoOn) -> list[Fraction] | None:
    """When each picture is shown, s; None if it was ended."""
    container = av.open(str(partial), "w", format="mp4")
    try:
        times = _coded_into(container, path, go_on)
    except BaseException:
        _leave(container)
        raise
    if times is None:
        _leave(container)
    else:
        container.close()
    return times


def _coded_into(container: OutputContainer, path: Path, go_on: GoOn) -> list[Fraction] | None:
    stream: VideoStream | None = None
    times = []
    for frame in _decoded(path):
        if not go_on():
            return None
        stream = stream or _stream(container, frame)
        container.mux(stream.encode(_as_coded(frame)))
        times.append(_time(frame))
    if stream is not None:
        container.mux(stream.encode(None))
    return times


def _leave(container: OutputContainer) -> None:
    """Close a file that will never be whole, at which FFmpeg may complain."""
    with suppress(av.FFmpegError):
        container.close()


def _stream(container: OutputContainer, like: VideoFrame) -> VideoStream:
    stream = container.add_stream("libx264", rate=30, options=QUALITY)
    stream.width, stream.height = like.width + like.width % 2, like.height + like.height % 2
    stream.pix_fmt = "yuv420p"
    coder = stream.codec_context
    coder.gop_size = _KEYFRAME_EVERY
    coder.max_b_frames = 0  # reordering would shift the first time
    # A JPEG's own colours (ITU-T T.871): BT.601 in the full range, so that no value is changed.
    coder.colorspace, coder.color_range = Colorspace.ITU601, ColorRange.JPEG
    coder.time_base = _TICK
    return stream


def _as_coded(frame: VideoFrame) -> VideoFrame:
    """The picture with as many colours as the coder takes, at the same time."""
    even = frame.width + frame.width % 2, frame.height + frame.height % 2
    coded = frame.reformat(
        *even, "yuv420p", src_color_range=ColorRange.JPEG, dst_color_range=ColorRange.JPEG
    )
    coded.pts, coded.time_base = round(_time(frame) / _TICK), _TICK
    return coded


def _is_as_good(path: Path, times: list[Fraction], pictures: int, small: Path, go_on: GoOn) -> bool:
    """False if it was ended.

    KeptError unless all of the film was read, and the small one shows as much at those times.
    """
    if len(times) != pictures:
        raise KeptError(f"{path}: {len(times)} of {pictures} pictures can be decoded")
    again = []
    for frame in _decoded(small):
        if not go_on():
            return False
        again.append(_time(frame))
    if again != times:
        raise KeptError(f"{path}: is not the same as H.264; it is left as it is")
    return True


def _decoded(path: Path) -> Iterator[VideoFrame]:
    try:
        with av.open(str(path)) as container:
            (stream,) = container.streams.video
            stream.thread_type = "AUTO"
            for frame in container.decode(stream):
                if frame.is_corrupt:
                    raise KeptError(f"{path}: damaged, a picture cannot be decoded")
                yield frame
    except (av.FFmpegError, OSError, ValueError) as error:
        raise KeptError(f"{path}: cannot be read to its end ({error})") from None


def _time(frame: VideoFrame) -> Fraction:
    assert frame.pts is not None, "films have times"
    assert frame.time_base is not None, "films have times"
    return frame.pts * Fraction(frame.time_base)
