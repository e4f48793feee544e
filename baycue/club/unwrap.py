"""The picture unrolled about the hands: a shaft, sharp or smeared, becomes rows.

Row ``k`` of an unrolled picture looks along the shaft angle ``k / ROWS_PER_DEG`` degrees,
counted as ``ShaftReading.angle_deg`` counts it (0 down, +90 toward the target).
"""

from dataclasses import dataclass
from functools import lru_cache

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.club.background import FloatPicture

ROWS_PER_DEG = 2
ROW_COUNT = 360 * ROWS_PER_DEG


@dataclass(frozen=True, slots=True)
class Reach:
    """The stretch of shaft looked at: from ``inner_px`` to ``outer_px`` off the hands."""

    inner_px: float
    outer_px: float


_WHITE_TO_BLACK, _SHAFT_M, _OFF_HANDS_M = 255.0, 0.012, 0.5


def loudest_smear(flicker: float) -> float:
    """The most contrast, in flickers, times width, degrees, of a smeared shaft.

    White before black, for a shaft of 12 mm seen half a metre from the hands: smeared over so many
    radians it keeps ``0.012 / (0.5 * radians)`` of its contrast.  ``flicker``: in grey levels.
    """
    share_deg = np.degrees(_SHAFT_M / _OFF_HANDS_M)
    return float(_WHITE_TO_BLACK * share_deg / flicker)


def only_faint(
    unrolled: FloatPicture, smear_deg: float, loudest: float, into: FloatPicture | None = None
) -> FloatPicture:
    """``unrolled`` with everything too loud for a shaft smeared over ``smear_deg`` set to 0.

    A smear spreads the shaft's contrast thin, in proportion to its width; what is louder is a
    moving leg or arm.  ``loudest``: the picture's ``loudest_smear``.  ``into``: an array of the
    same shape for the answer.
    """
    most = np.float32(loudest / smear_deg)
    below = float(np.nextafter(-most, np.float32(-np.inf)))
    # Two passes of OpenCV's take a tenth of the time of one choice of numpy's.
    _, faint = cv2.threshold(unrolled, float(most), 0.0, cv2.THRESH_TOZERO_INV, dst=into)
    _, faint = cv2.threshold(faint, below, 0.0, cv2.THRESH_TOZERO, dst=faint)
    return np.asarray(faint, dtype=np.float32)


def unroll(
    picture: FloatPicture, hands_px: NDArray[np.float64], reach: Reach, target_on_right: bool
) -> FloatPicture:
    """``picture`` (h, w) about ``hands_px`` (2,) as (ROW_COUNT, columns); outside reads 0."""
    across, down = _rays_px(reach, target_on_right)
    columns, rows = across + np.float32(hands_px[0]), down + np.float32(hands_px[1])
    # As cv2.warpPolar, which works the rays out again each time.
    return np.asarray(cv2.remap(picture, columns, rows, cv2.INTER_LINEAR), dtype=np.float32)


@lru_cache(maxsize=4)
def _rays_px(reach: Reach, target_on_right: bool) -> tuple[FloatPicture, FloatPicture]:
    """How far across and down from the hands each place of an unrolled picture lies."""
    outer = round(reach.outer_px)
    radii_px = (np.arange(outer) * (reach.outer_px / outer))[round(reach.inner_px) :]
    angles = np.radians(np.arange(ROW_COUNT) / ROWS_PER_DEG)[:, None]
    across = radii_px * np.sin(angles) * (1 if target_on_right else -1)
    return across.astype(np.float32), (radii_px * np.cos(angles)).astype(np.float32)
