"""Cutting a stream of JPEGs, as phones and network cameras send over HTTP, into pictures.

The stream is ``multipart/x-mixed-replace``: a boundary line, header lines, an empty line and a
JPEG, again and again (MIME, RFC 2046; the replacing subtype is common practice).  Some cameras
tell each part's length, some do not.
"""

from typing import Protocol

from baycue.errors import BadPictureError, CameraLostError

LARGEST_PICTURE_BYTES = 16 << 20
_LONGEST_LINE = 1024
_MOST_LINES = 64
_START, _END = b"\xff\xd8", b"\xff\xd9"


class ByteStream(Protocol):
    """What is read from: a connection's body."""

    def readline(self, limit: int, /) -> bytes:
        """Up to and with the next line feed; empty at the end."""

    def read(self, size: int, /) -> bytes:
        """Exactly so many bytes; fewer only at the end."""

    def read1(self, size: int, /) -> bytes:
        """What has come so far, at most so many bytes; empty at the end."""


class JpegCutter:
    """Reads one whole picture after another; what lies between them is skipped."""

    def __init__(self, stream: ByteStream) -> None:
        self._stream = stream
        self._left_over = b""

    def next_picture(self) -> bytes:
        """The next JPEG, as soon as its last byte has come.

        Raises CameraError at the end of the stream or where there is no JPEG to be found.
        """
        length = None if self._left_over else self._part_length()
        if length is None:
            return self._search()
        picture = self._stream.read(length)
        if len(picture) < length:
            raise CameraLostError("the stream was cut off in the middle of a picture")
        return picture

    def _part_length(self) -> int | None:
        """Read a part's head: its stated length, None if it states none."""
        length, seen_header = None, False
        for _ in range(_MOST_LINES):
            line = self._stream.readline(_LONGEST_LINE)
            if not line:
                raise CameraLostError("the camera ended the stream")
            name, colon, value = line.strip().partition(b":")
            if colon:
                seen_header = True
                if name.strip().lower() == b"content-length":
                    length = _length(value)
            elif seen_header and not name:
                return length
            elif line.startswith(_START):
                self._left_over = line
                return None
        raise BadPictureError("the stream holds no pictures")

    def _search(self) -> bytes:
        """Read until a JPEG's end mark that is followed by nothing or by a boundary."""
        held, self._left_over = self._left_over, b""
        looked = 0
        while True:
            end = _end_of_picture(held, looked)
            if end:
                start = held.find(_START)
                self._left_over = _after_boundary(held[end:])
                return held[max(start, 0) : end]
            if len(held) > LARGEST_PICTURE_BYTES:
                raise BadPictureError("the stream holds no whole picture within 16 MB")
            looked = max(len(held) - len(_END) - 4, 0)
            more = self._stream.read1(1 << 16)
            if not more:
                raise CameraLostError("the camera ended the stream")
            held += more


def _length(value: bytes) -> int:
    if not value.strip().isdigit() or not 0 < int(value) <= LARGEST_PICTURE_BYTES:
        raise BadPictureError(f"the stream states a picture of {value.strip()[:20]!r} bytes")
    return int(value)


def _end_of_picture(held: bytes, looked: int) -> int:
    """Where the first whole picture ends; 0 if it is not all there."""
    at = held.find(_END, looked)
    while at >= 0:
        after = held[at + 2 : at + 6].lstrip(b"\r\n")
        if held.find(_START, 0, at) >= 0 and (not after or after.startswith(b"--"[: len(after)])):
            return at + 2
        at = held.find(_END, at + 1)
    return 0


def _after_boundary(rest: bytes) -> bytes:
    """What belongs to the next picture; of a head that is not all there, everything."""
    return rest.lstrip(b"\r\n")
