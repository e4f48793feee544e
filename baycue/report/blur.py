"""A head made unrecognisable, for pictures that leave the bay."""

from collections.abc import Mapping
from dataclasses import dataclass

import cv2
import numpy as np

from baycue.capture.frame import Picture
from baycue.pose.pose import Pose
from baycue.swing.hands import hand_sample

ANOTHER_PICTURES = 1.8
"""Room for a head that was found in another picture, for heads move; assumed."""

_FACE = slice(0, 11)
"""MediaPipe's landmarks of nose, eyes, ears and mouth."""
_HEAD_BODIES = 0.17
"""A head's half width and some more, in ankle-to-shoulder lengths; assumed."""


@dataclass(frozen=True, slots=True)
class Head:
    """Where a head lies in a picture, and half of how wide it is taken to be."""

    x_px: float
    y_px: float
    half_px: float


def head_of(pose: Pose) -> Head:
    """The head of a pose as it lies in its picture."""
    face = pose.pixels[_FACE]
    x_px, y_px = face.mean(axis=0)
    extent = float(np.ptp(face, axis=0).max())
    return Head(float(x_px), float(y_px), max(extent, _HEAD_BODIES * hand_sample(pose).body_px))


def blur_face(picture: Picture, pose: Pose, room: float = 1.0) -> None:
    """Make a pose's head unrecognisable; ``room``: as for ``blur_head``."""
    blur_head(picture, head_of(pose), room)


def blur_head(picture: Picture, head: Head, room: float = 1.0) -> None:
    """Make it unrecognisable: averaged in six blocks across and blurred, so no way back.

    ``room``: how much larger than a head, for one that is another moment's.
    """
    middle, half = np.array([head.x_px, head.y_px]), room * head.half_px
    left, top = np.maximum(0, np.floor(middle - half)).astype(int)
    right, bottom = np.maximum(0, np.ceil(middle + half)).astype(int)
    covered = picture[top:bottom, left:right]
    if covered.size == 0:
        return
    small = cv2.resize(covered, (6, 6), interpolation=cv2.INTER_AREA)
    size = covered.shape[1], covered.shape[0]
    covered[:] = cv2.resize(small, size, interpolation=cv2.INTER_LINEAR)


def blur_golfer(picture: Picture, heads: Mapping[int, Head], index: int) -> None:
    """Blur the head in picture ``index`` of a recording; ``heads``: those found, by picture.

    Where none was found the nearest picture's is taken, with more room; nothing if there is none.
    """
    if index in heads:
        blur_head(picture, heads[index])
    elif heads:
        blur_head(picture, heads[min(heads, key=lambda at: abs(at - index))], ANOTHER_PICTURES)
