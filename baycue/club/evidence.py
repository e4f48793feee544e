"""How strongly one picture says that the shaft lies at each angle, sharp or smeared.

Every row of the unrolled picture is averaged over an angular width and over short
stretches along the shaft, signed, so that sensor noise cancels and a faint smear adds
up; a real shaft stands out along most of its stretches, a hand or a knee along few.
"""

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.club.background import FloatPicture
from baycue.club.unwrap import ROW_COUNT, ROWS_PER_DEG, WIDE_SMEAR_DEG, only_faint

FloatArray = NDArray[np.float64]

WIDTHS_DEG = (2.0, 5.0, 10.0, 18.0, 30.0, 45.0)
_STRETCHES = 10
_LOUDEST = 8.0


def angular_evidence(unrolled: FloatPicture) -> FloatArray:
    """Evidence (len(WIDTHS_DEG), 360) per smear width and whole degree, in sigmas."""
    all_of_it, faint = _stretch_means(unrolled), _stretch_means(only_faint(unrolled))
    rows = [
        _contrast(*(faint if width >= WIDE_SMEAR_DEG else all_of_it), width) for width in WIDTHS_DEG
    ]
    every_degree: FloatArray = np.stack(rows)[:, ::ROWS_PER_DEG]
    return every_degree


def _stretch_means(unrolled: FloatPicture) -> tuple[FloatArray, float]:
    """Means over short stretches (ROW_COUNT, _STRETCHES) and their expected noise."""
    columns = unrolled.shape[1] // _STRETCHES
    used = unrolled[:, : columns * _STRETCHES].reshape(ROW_COUNT, _STRETCHES, columns)
    # Far rows interpolate the same few pixels, so rows are not independent: about two
    # neighbours share a pixel at mid-shaft, and the noise falls more slowly than 1/sqrt(n).
    return used.mean(axis=2).astype(np.float64), 1.0 / np.sqrt(columns)


def _contrast(stretches: FloatArray, noise: float, width_deg: float) -> FloatArray:
    rows = max(int(width_deg * ROWS_PER_DEG), 1)
    inside = _ring_mean(stretches, rows)
    floor = noise / np.sqrt(max(rows / 3, 1.0)) + 0.15
    loud = np.minimum(np.abs(inside) / floor, _LOUDEST)
    gap = rows // 2 + max(rows // 2, 3 * ROWS_PER_DEG)
    flank = np.minimum(np.roll(loud, gap, axis=0), np.roll(loud, -gap, axis=0))
    other = np.maximum(np.roll(loud, gap, axis=0), np.roll(loud, -gap, axis=0))
    stands_out = loud - 0.5 * flank - 0.5 * other
    return np.asarray(np.clip(stands_out, -2.0, None).mean(axis=1))


def _ring_mean(values: FloatArray, rows: int) -> FloatArray:
    """Running mean over ``rows`` rows of a ring."""
    padded = np.concatenate([values[-rows:], values, values[:rows]])
    blurred = cv2.blur(padded, (1, rows | 1), borderType=cv2.BORDER_REPLICATE)
    return np.asarray(blurred[rows:-rows])
