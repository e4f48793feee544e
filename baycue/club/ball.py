"""When the ball left: where the club cannot be followed, its going tells the impact.

Between the top and the strike the ball lies still on the mat with nothing near it; after
the strike it is gone.  So it is the small round spot near the feet that is the same in
every frame before and missing in every frame after.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.club.background import GreyPicture

FloatArray = NDArray[np.float64]

BALL_DIAMETER_M = 0.04267
"""The rules' least diameter (Equipment Rules of Golf); balls are made to it."""

_BEFORE_NS = (-150_000_000, 120_000_000)
_LEAST_GAP_GREY = 12.0
_AREAS = (0.3, 4.0)
_LEAST_FILL = 0.45
_MOST_ASPECT = 2.2
_SINCE_RETURN_NS = (-35_000_000, 90_000_000)
"""The hands are back, in the picture, a little before the club is."""


@dataclass(frozen=True, slots=True)
class BallScene:
    """What is needed to see the ball go.

    ``greys``: N pictures of a still camera from before the top to just after the strike.
    ``ground_box_px``: left, top, right, bottom of where the ball may lie, in those pictures.
    ``top_ns``, ``return_ns``: rough times of the top and of the hands' return.
    """

    greys: Sequence[GreyPicture]
    stamps_ns: tuple[int, ...]
    ground_box_px: tuple[int, int, int, int]
    px_per_m: float
    top_ns: int
    return_ns: int


def ball_gone_ns(scene: BallScene) -> tuple[int, int] | None:
    """When the ball went and the one-sigma of that, ns; None if no ball is seen to go."""
    stamps = np.array(scene.stamps_ns)
    past_top = stamps - scene.top_ns
    before = np.flatnonzero((past_top >= _BEFORE_NS[0]) & (past_top <= _BEFORE_NS[1]))
    after = np.flatnonzero(stamps > scene.return_ns)[-2:]
    if len(before) < 2 or not len(after):
        return None
    crops = _crops(scene)
    there, gone = np.median(crops[before], axis=0), np.median(crops[after], axis=0)
    restless = np.ptp(crops[before], axis=0)
    for spot in _round_spots(there - gone, restless, scene.px_per_m):
        went = _step_ns(stamps, _presence(crops, spot, there, gone), scene.top_ns)
        if went and _SINCE_RETURN_NS[0] <= went[0] - scene.return_ns <= _SINCE_RETURN_NS[1]:
            return went
    return None


def _crops(scene: BallScene) -> FloatArray:
    left, top, right, bottom = scene.ground_box_px
    return np.stack([g[top:bottom, left:right] for g in scene.greys]).astype(np.float64)


def _round_spots(
    lost: FloatArray, restless: FloatArray, px_per_m: float
) -> list[NDArray[np.bool_]]:
    """Masks of ball-sized spots that were still before and are lost after, brightest first."""
    mask = (lost > _LEAST_GAP_GREY) & (restless < 0.6 * lost)
    count, labels, stats, _ = cv2.connectedComponentsWithStats(mask.astype(np.uint8))
    expected = np.pi / 4 * (BALL_DIAMETER_M * px_per_m) ** 2
    spots = [labels == k for k in range(1, count) if _ball_shaped(stats[k], expected)]
    return sorted(spots, key=lambda spot: -float(lost[spot].sum()))


def _ball_shaped(stats: NDArray[np.int32], expected_px: float) -> bool:
    width, height, area = (int(stats[k]) for k in (cv2.CC_STAT_WIDTH, cv2.CC_STAT_HEIGHT, 4))
    low, high = (share * expected_px for share in _AREAS)
    flat = max(width, height) / min(width, height) <= _MOST_ASPECT
    return low <= area <= max(high, 6.0) and area >= _LEAST_FILL * width * height and flat


def _presence(
    crops: FloatArray, spot: NDArray[np.bool_], there: FloatArray, gone: FloatArray
) -> FloatArray:
    """How much of the ball each frame shows, (N,), 1 before and 0 after."""
    span = float((there - gone)[spot].mean())
    return np.asarray((crops[:, spot].mean(axis=1) - gone[spot].mean()) / span)


def _step_ns(stamps: NDArray[np.int64], shares: FloatArray, top_ns: int) -> tuple[int, int] | None:
    """Midway between the last frame with the ball and the next one."""
    with_ball = np.flatnonzero((shares > 0.5) & (stamps >= top_ns))
    if not len(with_ball) or with_ball[-1] + 1 >= len(stamps):
        return None
    last, following = (int(stamps[with_ball[-1] + k]) for k in (0, 1))
    return (last + following) // 2, round((following - last) / np.sqrt(12))
