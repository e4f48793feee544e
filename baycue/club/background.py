"""What the bay looks like without the club: the camera stands still, so a median tells."""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

GreyPicture = NDArray[np.uint8]
FloatPicture = NDArray[np.float32]

_MOST_SAMPLES = 15
_MAD_TO_SIGMA = 1.4826


@dataclass(frozen=True, slots=True)
class StillBackground:
    """The still bay, grey (h, w) uint8, and the one-sigma flicker of one of its pixels."""

    picture: GreyPicture
    flicker: float


def shrink_to_grey(picture_bgr: NDArray[np.uint8], factor: int) -> GreyPicture:
    """A grey copy, smaller by a whole factor; averaging also quietens sensor noise."""
    size = (picture_bgr.shape[1] // factor, picture_bgr.shape[0] // factor)
    small = cv2.resize(picture_bgr, size, interpolation=cv2.INTER_AREA) if factor > 1 else None
    grey = cv2.cvtColor(picture_bgr if small is None else small, cv2.COLOR_BGR2GRAY)
    return np.asarray(grey, dtype=np.uint8)


def still_background(greys: Sequence[GreyPicture]) -> StillBackground:
    """The median of up to 15 pictures spread over ``greys`` (at least one).

    Give it the moving part of a swing only: over a long address the median would hold
    the club itself.
    """
    picks = np.linspace(0, len(greys) - 1, min(_MOST_SAMPLES, len(greys))).round().astype(int)
    stack = np.stack([greys[k] for k in picks])
    middle = len(picks) // 2
    picture = np.partition(stack, middle, axis=0)[middle]
    gaps = np.abs(stack[[0, middle, -1]].astype(np.int16) - picture.astype(np.int16))
    flicker = max(_MAD_TO_SIGMA * float(np.median(gaps)), 0.7)
    return StillBackground(picture, flicker)


def difference(grey: GreyPicture, background: StillBackground) -> FloatPicture:
    """How far each pixel is from the still bay, in flickers, signed; (h, w)."""
    gap = cv2.subtract(grey, background.picture, dtype=cv2.CV_32F)
    return np.asarray(gap / np.float32(background.flicker), dtype=np.float32)


def passing_difference(
    grey: GreyPicture, background: StillBackground, around: Sequence[GreyPicture]
) -> FloatPicture:
    """What is here in ``grey`` and neither in the still bay nor a moment before and after.

    ``around``: pictures of moments so near that somebody who walks, or a leg, has hardly moved,
    and so far that a club coming down has.  As ``difference``, of the two the smaller.
    """
    still = difference(grey, background)
    stack = np.stack(around)
    usual = np.partition(stack, len(around) // 2, axis=0)[len(around) // 2]
    moved = cv2.subtract(grey, usual, dtype=cv2.CV_32F) / np.float32(background.flicker)
    smaller = np.where(np.abs(moved) < np.abs(still), moved, still)
    return np.asarray(np.where(still * moved > 0, smaller, np.float32(0)), dtype=np.float32)
