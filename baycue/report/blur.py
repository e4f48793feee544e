"""A head made unrecognisable, for pictures that leave the bay."""

import cv2
import numpy as np

from baycue.capture.frame import Picture
from baycue.pose.pose import Pose
from baycue.swing.hands import hand_sample

_FACE = slice(0, 11)
"""MediaPipe's landmarks of nose, eyes, ears and mouth."""
_HEAD_BODIES = 0.17
"""A head's half width and some more, in ankle-to-shoulder lengths; assumed."""


def blur_face(picture: Picture, pose: Pose, room: float = 1.0) -> None:
    """Make the head unrecognisable: averaged in six blocks across and blurred, so no way back.

    ``room``: how much larger than a head, for a pose that is another moment's.
    """
    middle = pose.pixels[_FACE].mean(axis=0)
    extent = float(np.ptp(pose.pixels[_FACE], axis=0).max())
    half = room * max(extent, _HEAD_BODIES * hand_sample(pose).body_px)
    left, top = np.maximum(0, np.floor(middle - half)).astype(int)
    right, bottom = np.ceil(middle + half).astype(int)
    head = picture[top:bottom, left:right]
    if head.size == 0:
        return
    small = cv2.resize(head, (6, 6), interpolation=cv2.INTER_AREA)
    head[:] = cv2.resize(small, (head.shape[1], head.shape[0]), interpolation=cv2.INTER_LINEAR)
