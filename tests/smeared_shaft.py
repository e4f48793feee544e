"""A shaft alone in unit noise, sharp or evenly smeared, as a difference picture shows it."""

from functools import lru_cache

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.club.background import FloatPicture
from baycue.club.unwrap import Reach, loudest_smear, unroll

FloatArray = NDArray[np.float64]

PX_PER_M = 118.0
"""A golfer who fills a picture of 360 lines."""
BODY_PX = 1.36 * PX_PER_M
REACH = Reach(0.17 * BODY_PX, 0.58 * BODY_PX)
SIZE_PX = 230
HANDS_PX = np.array([115.0, 115.0])
LOUDEST = loudest_smear(flicker=2.0)
LOUDNESS = 30.0
"""A bright shaft over a noisy sensor, in flickers."""


def smeared(
    angle_deg: float, smear_deg: float, seed: int, loudness: float = LOUDNESS
) -> FloatPicture:
    """A shaft 1.5 px thick turning evenly through ``smear_deg`` about the hands."""
    noise = np.random.default_rng(seed).normal(0, 1, (SIZE_PX, SIZE_PX))
    return np.asarray(_cover(angle_deg, smear_deg) * loudness + noise, dtype=np.float32)


@lru_cache(maxsize=64)
def _cover(angle_deg: float, smear_deg: float) -> FloatPicture:
    """How much of the exposure the shaft was in each pixel, 0 to 1."""
    steps = max(round(2 * smear_deg), 1)
    cover = np.zeros((2 * SIZE_PX, 2 * SIZE_PX), np.float32)
    for share in (np.arange(steps) + 0.5) / steps - 0.5:
        angle = np.radians(angle_deg + share * smear_deg)
        end = HANDS_PX + 0.86 * PX_PER_M * np.array([np.sin(angle), np.cos(angle)])
        mask = np.zeros(cover.shape, np.uint8)
        cv2.line(mask, _fine(HANDS_PX), _fine(end), 255, 3, cv2.LINE_AA, 4)
        cover += mask / np.float32(255 * steps)
    small = cv2.resize(cover, (SIZE_PX, SIZE_PX), interpolation=cv2.INTER_AREA)
    return np.asarray(small, dtype=np.float32)


def _fine(point_px: FloatArray) -> tuple[int, int]:
    """In sixteenths of the doubled picture's pixels."""
    doubled = 2 * point_px + 0.5
    return round(float(doubled[0]) * 16), round(float(doubled[1]) * 16)


def unrolled_about(picture: FloatPicture, hands_px: FloatArray = HANDS_PX) -> FloatPicture:
    """The picture unrolled about some supposed hands; the target is on the right."""
    return unroll(picture, hands_px, REACH, target_on_right=True)
