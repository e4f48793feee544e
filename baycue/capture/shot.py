"""One picture as the camera gave it: packed, or plain."""

from dataclasses import dataclass

import cv2
import numpy as np

from baycue.capture.frame import Frame, Picture
from baycue.errors import BadPictureError

_END = b"\xff\xd9"
Content = bytes | Picture
"""A whole JPEG file, or a plain picture."""


@dataclass(frozen=True, slots=True)
class Shot:
    """What one read of a camera gave, stamped right after it (host monotonic clock)."""

    index: int
    stamp_ns: int
    content: Content

    @property
    def nbytes(self) -> int:
        """Memory held, bytes."""
        return len(self.content) if isinstance(self.content, bytes) else self.content.nbytes

    def developed(self) -> Frame:
        """The plain picture; CameraError if the JPEG is damaged."""
        return Frame(self.index, self.stamp_ns, _plain(self.content))


def _plain(content: Content) -> Picture:
    if not isinstance(content, bytes):
        return content
    if not content:
        raise BadPictureError("a picture from the camera is empty")
    picture = cv2.imdecode(np.frombuffer(content, np.uint8), cv2.IMREAD_COLOR)
    if picture is None:
        raise BadPictureError("a picture from the camera is damaged")
    # What decodes a JPEG cut short makes up the rest of it in grey.
    if _END not in content.rstrip(b"\0")[-64:]:
        raise BadPictureError("a picture from the camera is cut short")
    return np.asarray(picture, dtype=np.uint8)
