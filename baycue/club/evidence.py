"""How strongly one picture says that the shaft lies at each angle, sharp or smeared.

Every row of the unrolled picture is averaged over an angular width and over short
stretches along the shaft, signed, so that sensor noise cancels and a faint smear adds
up; a real shaft stands out along most of its stretches, a hand or a knee along few.
"""

import cv2
import numpy as np

from baycue.club.background import FloatPicture
from baycue.club.unwrap import ROWS_PER_DEG, only_faint

WIDTHS_DEG = (2.0, 5.0, 10.0, 18.0, 30.0, 45.0)
_STRETCHES = 10
_LOUDEST = 8.0


def angular_evidence(unrolled: FloatPicture) -> FloatPicture:
    """Evidence (len(WIDTHS_DEG), 360) per smear width and whole degree, in sigmas."""
    noise = 1.0 / np.sqrt(ROWS_PER_DEG * (unrolled.shape[1] // _STRETCHES))
    return np.stack(
        [
            _contrast(_stretch_means(only_faint(unrolled, width)), noise, width)
            for width in WIDTHS_DEG
        ]
    )


def _stretch_means(unrolled: FloatPicture) -> FloatPicture:
    """Means over whole degrees and short stretches, (360, _STRETCHES)."""
    columns = unrolled.shape[1] // _STRETCHES
    used = np.ascontiguousarray(unrolled[:, : columns * _STRETCHES])
    return np.asarray(cv2.resize(used, (_STRETCHES, 360), interpolation=cv2.INTER_AREA))


def _contrast(stretches: FloatPicture, noise: float, width_deg: float) -> FloatPicture:
    """How much louder each angle is than what lies beside it, averaged along the shaft."""
    rows = max(int(width_deg), 1) | 1
    gap = rows // 2 + max(rows // 2, 3)
    ring = np.concatenate([stretches[-2 * gap :], stretches, stretches[: 2 * gap]])
    inside = np.abs(cv2.blur(ring, (1, rows), borderType=cv2.BORDER_REPLICATE))
    # Neighbouring rows share pixels, so the noise falls more slowly than 1 / sqrt(rows).
    floor = noise / np.sqrt(max(rows / 1.5, 1.0)) + 0.15
    loud = np.minimum(inside / floor, _LOUDEST)
    stands_out = loud[2 * gap : -2 * gap] - 0.5 * (loud[gap : -3 * gap] + loud[3 * gap : -gap])
    return np.asarray(np.maximum(stands_out, -2.0).mean(axis=1))
