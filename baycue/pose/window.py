"""The part of a frame that the pose model is shown."""

from dataclasses import dataclass

import numpy as np

from baycue.capture.frame import Frame, Picture


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
