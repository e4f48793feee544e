"""The part of a frame that the pose model is shown."""

from dataclasses import dataclass, replace

import cv2
import numpy as np

from baycue.capture.frame import Frame, Picture
from baycue.pose.pose import Pose
from baycue.pose.presence import body_height_px

_ROOM_SHARE = 0.12
"""Left around the landmarks, of the body's height, for what sticks out of them."""
_FLAT_GREY = 128


@dataclass(frozen=True, slots=True)
class Window:
    """A full-height cut of a frame's picture, starting ``left_px`` from its left edge."""

    picture: Picture
    left_px: int


def whole(frame: Frame) -> Window:
    """All of it."""
    return Window(frame.picture_bgr, 0)


def middle_square(frame: Frame) -> Window:
    """As wide as high, from the middle; all of a picture that is no wider than that."""
    height_px, width_px = frame.picture_bgr.shape[:2]
    left_px = max((width_px - height_px) // 2, 0)
    cut = frame.picture_bgr[:, left_px : left_px + min(height_px, width_px)]
    return Window(np.ascontiguousarray(cut), left_px)


def without(frame: Frame, body: Pose) -> Frame:
    """The frame with a body painted over, each row going on from what is left and right of it."""
    picture = frame.picture_bgr.copy()
    rows, columns = _room(frame, body)
    beside = [max(columns.start - 1, 0), min(columns.stop, picture.shape[1] - 1)]
    between = (columns.stop - columns.start, rows.stop - rows.start)
    ends = np.ascontiguousarray(picture[rows][:, beside])
    picture[rows, columns] = cv2.resize(ends, between, interpolation=cv2.INTER_LINEAR)
    return replace(frame, picture_bgr=picture)


def alone(frame: Frame, body: Pose) -> Frame:
    """The frame with nothing in it but a body and what is close about it."""
    picture = np.full_like(frame.picture_bgr, _FLAT_GREY)
    room = _room(frame, body)
    picture[room] = frame.picture_bgr[room]
    return replace(frame, picture_bgr=picture)


def _room(frame: Frame, body: Pose) -> tuple[slice, slice]:
    """The rows and columns of a body's place, at least one of each."""
    room_px = _ROOM_SHARE * body_height_px(body)
    size_px = np.array(frame.picture_bgr.shape[1::-1])
    low = np.clip(body.pixels.min(axis=0) - room_px, 0, size_px - 1).astype(int)
    high = np.clip(body.pixels.max(axis=0) + room_px, low + 1, size_px).astype(int)
    return slice(low[1], high[1]), slice(low[0], high[0])
