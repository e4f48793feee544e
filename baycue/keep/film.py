"""A film of pictures that are JPEGs already, each at its own time; written as they come.

Measured on two cores of an AMD EPYC virtual machine, 1280x720 with sensor noise, processor time a
picture: taking a camera's JPEG over as it is 0.08 ms, packing a plain picture as JPEG 2.2 ms,
coding it as H.264 (ultrafast) 3.8 ms and decoding the JPEG for that 4.4 ms.  The answer comes
first, so films are JPEGs; ``small_film`` makes them small when nobody waits for an answer.
"""

from collections.abc import Sequence
from fractions import Fraction
from pathlib import Path
from zlib import crc32

import av
import cv2
import numpy as np
from av.container.output import OutputContainer
from av.video.stream import VideoStream

from baycue.capture.clip_writer import TICKS_PER_S, ticks
from baycue.capture.shot import Shot
from baycue.errors import ExistsError, OutputError
from baycue.keep.place import PARTIAL
from baycue.keep.record import Film
from baycue.keep.whole import name_whole

CODEC = "mjpeg"
_CRASH_SAFE = {"movflags": "hybrid_fragmented+frag_keyframe", "flush_packets": "1"}
_JPEG_QUALITY = 85
_START, _END = b"\xff\xd8", b"\xff\xd9"
_CHUNK = 1 << 20


def packed_shot(shot: Shot) -> Shot:
    """The shot with its picture as a JPEG; one that is a JPEG already is left as it is."""
    if isinstance(shot.content, bytes):
        return shot
    good, data = cv2.imencode(".jpg", shot.content, [cv2.IMWRITE_JPEG_QUALITY, _JPEG_QUALITY])
    return Shot(shot.index, shot.stamp_ns, data.tobytes() if good else b"")


class FilmWriter:
    """Writes JPEG shots to a QuickTime file, called ``.partial`` until it is whole.

    What has been written can be played after the process or the machine was killed at any
    moment, a half-written last piece having been cut off (``film_check.cut_half_written``).
    Pictures that are no whole JPEG, or of another size than the first, are left out.
    OutputError if the file is there already or the disk refuses.
    """

    def __init__(self, path: Path) -> None:
        self.path, self.partial_path = path, path.with_name(path.name + PARTIAL)
        self.stamps_ns: list[int] = []
        self._size = (0, 0)
        self._stream: VideoStream | None = None
        try:
            if path.exists():
                raise FileExistsError
            self.partial_path.open("xb").close()
            self._container = av.open(
                str(self.partial_path), "w", format="mov", options=_CRASH_SAFE
            )
        except FileExistsError:
            raise ExistsError(f"{path}: exists already and is never overwritten") from None
        except (av.FFmpegError, OSError) as error:
            raise self._refused(error) from None

    def write(self, shot: Shot) -> None:
        """Append one shot; it must be later than the one before."""
        data = shot.content
        if not isinstance(data, bytes) or not data.startswith(_START) or _END not in data[-64:]:
            return
        size = jpeg_size(data)
        if size is None or (self._stream is not None and size != self._size):
            return
        if self.stamps_ns and ticks(shot.stamp_ns) <= ticks(self.stamps_ns[-1]):
            return
        self._mux(data, size, shot.stamp_ns)
        self.stamps_ns.append(shot.stamp_ns)

    def finish(self) -> Film | None:
        """Make the film whole and give it its name; None, and no file, if nothing came."""
        self.leave()
        if not self.stamps_ns:
            self.partial_path.unlink(missing_ok=True)
            return None
        try:
            name_whole(self.partial_path, self.path)
        except OSError as error:
            raise self._refused(error) from None
        return film_of(self.path, self._size, self.stamps_ns)

    def leave(self) -> None:
        """Close the file under its partial name; a second call does nothing."""
        try:
            self._container.close()
        except (av.FFmpegError, OSError) as error:
            raise self._refused(error) from None

    def _mux(self, data: bytes, size: tuple[int, int], stamp_ns: int) -> None:
        if self._stream is None:
            self._stream, self._size = _mjpeg_stream(self._container, size), size
        packet = av.Packet(data)
        packet.stream = self._stream
        packet.time_base = Fraction(1, TICKS_PER_S)
        first_ns = self.stamps_ns[0] if self.stamps_ns else stamp_ns
        packet.pts = packet.dts = ticks(stamp_ns - first_ns)
        packet.is_keyframe = True
        try:
            self._container.mux(packet)
        except (av.FFmpegError, OSError) as error:
            raise self._refused(error) from None

    def _refused(self, error: Exception) -> OutputError:
        why = getattr(error, "strerror", None) or str(error)
        return OutputError(f"{self.partial_path}: the film stopped ({why})")


def film_of(
    path: Path, size: tuple[int, int], stamps_ns: Sequence[int], codec: str = CODEC
) -> Film:
    """The facts of a film that is whole."""
    return Film(path.name, codec, *size, tuple(stamps_ns), path.stat().st_size, checksum(path))


def checksum(path: Path) -> int:
    """CRC-32 of a file."""
    total = 0
    with path.open("rb") as file:
        while chunk := file.read(_CHUNK):
            total = crc32(chunk, total)
    return total


def jpeg_size(data: bytes) -> tuple[int, int] | None:
    """Width and height in a JPEG's frame header (ITU-T T.81, B.2.2); None if there is none."""
    at = 2
    while at + 9 <= len(data) and data[at] == 0xFF:
        marker, length = data[at + 1], int.from_bytes(data[at + 2 : at + 4])
        if 0xC0 <= marker <= 0xCF and marker not in (0xC4, 0xC8, 0xCC):
            height, width = np.frombuffer(data[at + 5 : at + 9], ">u2")
            return int(width), int(height)
        at += 2 + length
    return None


def _mjpeg_stream(container: OutputContainer, size: tuple[int, int]) -> VideoStream:
    stream = container.add_stream(CODEC, rate=30)
    assert isinstance(stream, VideoStream)
    stream.width, stream.height = size
    stream.pix_fmt = "yuvj420p"
    stream.time_base = stream.codec_context.time_base = Fraction(1, TICKS_PER_S)
    return stream
