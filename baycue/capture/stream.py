"""A network camera that sends coded video: RTSP, or a video stream over HTTP."""

from collections.abc import Iterator

import av
import cv2
import numpy as np
from av.video.frame import VideoFrame

from baycue.capture.network import without_password
from baycue.capture.shot import Content
from baycue.errors import CameraError, CameraLostError

_OPEN_S, _SILENCE_S = 8.0, 3.0
_NO_WAITING = {
    "flags": "low_delay",
    "rtsp_transport": "tcp",
    "probesize": "200000",
    "analyzeduration": "500000",
}
"""FFmpeg's own words for: hold nothing back, and look shortly at what kind of stream it is.

Not ``nobuffer``: it throws away what was looked at, the first keyframe too.
"""


class StreamFeed:
    """A ``Feed`` decoded by FFmpeg, told to hold back as little as it can.

    Raises CameraError if the address does not answer or holds no video.
    """

    def __init__(self, url: str) -> None:
        self._shown = without_password(url)
        try:
            self._container = av.open(
                url, options=_NO_WAITING, timeout=(_OPEN_S, _SILENCE_S), metadata_errors="replace"
            )
        except (av.FFmpegError, OSError, ValueError) as error:
            raise CameraError(
                f"{self._shown}: gives no video ({error.strerror or 'no answer'}); check the "
                "address, and that the camera is on"
                if isinstance(error, OSError)
                else f"{self._shown}: is no address of a video"
            ) from None
        self._frames = self._decoding()

    def read(self) -> Content:
        """The next picture."""
        try:
            frame = next(self._frames)
        except StopIteration:
            raise CameraLostError(f"{self._shown}: the camera ended the stream") from None
        except (av.FFmpegError, OSError) as error:
            raise CameraLostError(f"{self._shown}: the stream broke ({error.strerror})") from None
        return np.asarray(frame.to_ndarray(format="bgr24"), dtype=np.uint8)

    def close(self) -> None:
        """Hang up."""
        self._container.close()

    def describe(self) -> str:
        """Address, codec and size."""
        stream = self._container.streams.video[0]
        codec = stream.codec_context
        return f"{self._shown}, {codec.name}, {codec.width}x{codec.height}"

    def _decoding(self) -> Iterator[VideoFrame]:
        if not self._container.streams.video:
            raise CameraError(f"{self._shown}: holds no picture track")
        stream = self._container.streams.video[0]
        # Decoding frames side by side would hold back one for each thread.
        stream.thread_type = av.codec.context.ThreadType.SLICE
        stream.thread_count = max(cv2.getNumberOfCPUs() // 2, 1)
        yield from self._container.decode(stream)
