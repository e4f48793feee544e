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


def angular_evidence(unrolled: FloatPicture, loudest: float) -> FloatPicture:
    """Evidence (len(WIDTHS_DEG), 360) per smear width and whole degree, in sigmas.

    ``loudest``: the picture's ``loudest_smear``.
    """
    columns = unrolled.shape[1] // _STRETCHES
    noise = 1.0 / np.sqrt(ROWS_PER_DEG * columns)
    used = np.ascontiguousarray(unrolled[:, : columns * _STRETCHES])
    faint = np.empty_like(used)
    return np.stack(
        [
            _contrast(_stretch_means(only_faint(used, width, loudest, into=faint)), noise, width)
            for width in WIDTHS_DEG
        ]
    )


def _stretch_means(used: FloatPicture) -> FloatPicture:
    """Means over whole degrees and short stretches, (_STRETCHES, 360)."""
    means = cv2.resize(used, (_STRETCHES, 360), interpolation=cv2.INTER_AREA)
    return np.ascontiguousarray(means.T)


def _contrast(stretches: FloatPicture, noise: float, width_deg: float) -> FloatPicture:
    """How much louder each angle is than what lies beside it, averaged along the shaft."""
    rows = max(int(width_deg), 1) | 1
    gap = rows // 2 + max(rows // 2, 3)
    ring = np.concatenate([stretches[:, -2 * gap :], stretches, stretches[:, : 2 * gap]], axis=1)
    loud = np.abs(cv2.blur(ring, (rows, 1), borderType=cv2.BORDER_REPLICATE))
    # Neighbouring rows share pixels, so the noise falls more slowly than 1 / sqrt(rows).
    loud /= np.float32(noise / np.sqrt(max(rows / 1.5, 1.0)) + 0.15)
    np.minimum(loud, _LOUDEST, out=loud)
    beside = loud[:, gap : -3 * gap] + loud[:, 3 * gap : -gap]
    stands_out = loud[:, 2 * gap : -2 * gap] - np.float32(0.5) * beside
    return np.asarray(np.maximum(stands_out, -2.0).mean(axis=0))
