"""Which of what is new beside the golfer is somebody, in a small picture.

The golfer's own hands and club move too, and now and then leave the place where they are expected:
what is low and close to the hands is they, what is tall there or further off is somebody.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.bay.golfer_place import Mask, expected_px
from baycue.pose.pose import FloatArray, Pose
from baycue.swing.hands import WRISTS, hand_sample

_LEAST_BODIES2 = 0.005
"""What shows less, in lengths squared from ankle to hip to shoulder, is nobody.  A passer close
behind a turned golfer shows little more; with a fixed 60 small pixels instead of 25 beside a golfer
of 70 the knee's error at P6 was 16 mm instead of 13 (RMS, 24 synthetic swings of seed 8 with
somebody walking by)."""
_FEWEST_PX2 = 9
"""Whoever is further off still has to show so many."""
_AT_HANDS_BODIES, _TALL_BODIES = 0.35, 0.25
_SPECK_PX, _HOLE_PX, _EDGE_PX = 3, 9, 5


@dataclass(frozen=True, slots=True, eq=False)
class GolferThen:
    """The golfer's length, ankle to hip to shoulder, and where the hands will be, (2,); px."""

    body_px: float
    hands_px: FloatArray

    @property
    def least_px2(self) -> float:
        """The area that somebody beside this golfer shows at least."""
        return max(_LEAST_BODIES2 * self.body_px**2, _FEWEST_PX2)


def golfer_then(poses: Sequence[Pose], stamp_ns: int, shrink: int) -> GolferThen:
    """The golfer of ``poses`` at ``stamp_ns``, in a picture ``shrink`` times smaller."""
    hands_px = expected_px(poses, stamp_ns)[list(WRISTS)].mean(axis=0)
    return GolferThen(hand_sample(poses[-1]).body_px / shrink, hands_px / shrink)


def passer_in(new: Mask, open_to: Mask, golfer: GolferThen) -> Mask | None:
    """The place, a little widened, of somebody new; None if nobody is.

    ``new``: (h, w), 1 where something is.  ``open_to``: 1 where somebody may be.
    """
    cleared = cv2.morphologyEx(new, cv2.MORPH_OPEN, _square(_SPECK_PX))
    whole = cv2.morphologyEx(cleared, cv2.MORPH_CLOSE, _square(_HOLE_PX))
    _, labels, stats, middles = cv2.connectedComponentsWithStats(whole)
    pieces = np.asarray(stats, np.int32)
    own = _own(pieces, np.asarray(middles, np.float64), golfer)
    somebody = (pieces[:, cv2.CC_STAT_AREA] >= golfer.least_px2) & ~own
    somebody[0] = False  # what is not new
    if not somebody.any():
        return None
    wider = cv2.dilate(somebody.astype(np.uint8)[labels], _square(_EDGE_PX))
    return np.asarray(cv2.bitwise_and(wider, open_to), np.uint8)


def _own(
    pieces: NDArray[np.int32], middles: NDArray[np.float64], golfer: GolferThen
) -> NDArray[np.bool_]:
    """Which pieces are the golfer's own hands, or the club in them."""
    away_px = np.linalg.norm(middles - golfer.hands_px, axis=1)
    low = pieces[:, cv2.CC_STAT_HEIGHT] < _TALL_BODIES * golfer.body_px
    return np.asarray(low & (away_px < _AT_HANDS_BODIES * golfer.body_px))


def _square(side_px: int) -> NDArray[np.uint8]:
    return np.ones((side_px, side_px), np.uint8)
