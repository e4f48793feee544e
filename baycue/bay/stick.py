"""A bright stick on the mat, found between the feet and the ball.

It is a thin bright line, brighter than the mat on both sides, nearly level in the picture and
about as long as told.  Mat edges and seams are brighter than one side only, or far longer.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
Picture = NDArray[np.uint8]

_STEEPEST_DEG, _STEP_DEG = 12.0, 0.5
_STEEPEST = float(np.tan(np.radians(_STEEPEST_DEG)))
_MOST_PICTURES = 24
_BESIDE_PX = 3
_BLUR_PX = 0.7
_LENGTH_SLACK = 0.15
"""How far the length told by the golfer's body may be off."""
_LEAST_CONTRAST = 6.0
"""Grey levels, of the whole stick, brighter than both its sides."""
_CANDIDATES = 6
_HALF = 0.5


@dataclass(frozen=True, slots=True)
class StickSeen:
    """``ends_px``: (2, 2) ends in the picture, the left one first; ``contrast``: grey levels."""

    ends_px: FloatArray
    contrast: float


@dataclass(frozen=True, slots=True)
class StickPlace:
    """Where to look: a box (left, top, right, bottom), px, and about how long the stick is, px.

    ``gap_px``: as much of it may be hidden in one place, by a shoe, the club or the ball.
    """

    box_px: tuple[int, int, int, int]
    length_px: float
    gap_px: float


def find_stick(greys: Sequence[Picture], place: StickPlace) -> StickSeen | None:
    """The stick in still pictures (h, w), or None."""
    left, top, right, bottom = place.box_px
    if right - left < place.length_px or bottom - top < 2 * _BESIDE_PX + 3:
        return None
    picks = np.linspace(0, len(greys) - 1, min(_MOST_PICTURES, len(greys))).astype(int)
    cut = np.median([greys[k][top:bottom, left:right] for k in picks], axis=0)
    ridge = _ridge(cut.astype(np.float32))
    found = [_measured(ridge, line, place) for line in _lines(ridge, place.length_px)]
    likely = [stick for stick in found if stick]
    best = max(likely, key=lambda stick: stick.contrast, default=None)
    return best and StickSeen(best.ends_px + np.array([left, top]), best.contrast)


def _ridge(grey: NDArray[np.float32]) -> NDArray[np.float32]:
    """How much brighter each place is than the brighter of what is above and below it."""
    smooth = cv2.GaussianBlur(grey, (0, 0), _BLUR_PX)
    beside = np.full_like(smooth, 255.0)
    beside[_BESIDE_PX:-_BESIDE_PX] = np.maximum(smooth[: -2 * _BESIDE_PX], smooth[2 * _BESIDE_PX :])
    return np.asarray(np.maximum(smooth - beside, 0.0), dtype=np.float32)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line through (``x_px``, ``y_px``), its middle, going down to the right by ``slope``."""

    x_px: float
    y_px: float
    slope: float


def _lines(ridge: NDArray[np.float32], length_px: float) -> Iterator[_Line]:
    """The brightest near-level stretches of about that length, the brightest first."""
    width = ridge.shape[1]
    stretch = max(round((1 - _LENGTH_SLACK) * length_px), 3)
    slopes = np.tan(np.radians(np.arange(-_STEEPEST_DEG, _STEEPEST_DEG + 0.01, _STEP_DEG)))
    means = np.stack([_stretch_means(ridge, float(slope), stretch) for slope in slopes])
    for _ in range(_CANDIDATES):
        which, row, column = np.unravel_index(int(means.argmax()), means.shape)
        if means[which, row, column] < _LEAST_CONTRAST * _HALF:
            return
        x, slope = column + (stretch - 1) / 2, float(slopes[which])
        yield _Line(float(x), float(row + slope * (x - width / 2)), slope)
        near = slice(max(row - 4, 0), row + 5)
        means[:, near] = 0.0


def _stretch_means(ridge: NDArray[np.float32], slope: float, stretch: int) -> FloatArray:
    """Mean ridge along each stretch of a slope, (rows at the middle column, first columns)."""
    height, width = ridge.shape
    shear = np.array([[1, 0, 0], [slope, 1, -slope * width / 2]])
    level = cv2.warpAffine(
        ridge, shear, (width, height), flags=cv2.INTER_LINEAR | cv2.WARP_INVERSE_MAP
    )
    sums = np.cumsum(np.pad(level, ((0, 0), (1, 0))), axis=1, dtype=np.float64)
    return np.asarray((sums[:, stretch:] - sums[:, :-stretch]) / stretch)


def _measured(ridge: NDArray[np.float32], line: _Line, place: StickPlace) -> StickSeen | None:
    """The line laid exactly along the stick, and cut where it ends; None if it does not."""
    length_px = place.length_px
    line = _laid(ridge, line, (1 - _LENGTH_SLACK) * length_px)
    along = np.arange(-line.x_px, ridge.shape[1] - 1 - line.x_px)
    bright = _along(ridge, line, along)
    inside = np.abs(along) < 0.35 * length_px
    contrast = float(np.median(bright[inside]))
    ends = _ends(along, bright, _HALF * contrast, place.gap_px)
    if contrast < _LEAST_CONTRAST or ends is None:
        return None
    across = np.array(ends)
    points = np.column_stack([line.x_px + across, line.y_px + line.slope * across])
    if abs(line.slope) > _STEEPEST or not _inside(points, ridge):
        return None
    length = float(np.linalg.norm(points[1] - points[0]))
    if abs(length / length_px - 1) > _LENGTH_SLACK:
        return None
    return StickSeen(points, contrast)


def _inside(points: FloatArray, ridge: NDArray[np.float32]) -> bool:
    """Whether both ends are away from the edge, where the stick would be cut off."""
    edge = _BESIDE_PX + 2
    high = np.array(ridge.shape[::-1]) - 1 - edge
    return bool(((points >= edge) & (points <= high)).all())


def _laid(ridge: NDArray[np.float32], line: _Line, length_px: float) -> _Line:
    """The line through the ridge's crest: twice a weighted straight fit, the second nearer."""
    for reach in (3, 2):
        columns = np.arange(
            max(round(line.x_px - length_px / 2), 0),
            min(round(line.x_px + length_px / 2) + 1, ridge.shape[1]),
        )
        rows = np.rint(line.y_px + line.slope * (columns - line.x_px)).astype(int)
        near = np.clip(rows[:, None] + np.arange(-reach, reach + 1), 0, ridge.shape[0] - 1)
        weights = ridge[near, columns[:, None]].astype(np.float64)
        total = weights.sum(axis=1)
        seen = total > 0
        if seen.sum() < 3:
            return line
        crest = (near * weights).sum(axis=1)[seen] / total[seen]
        slope, middle = np.polyfit(columns[seen] - line.x_px, crest, 1, w=np.sqrt(total[seen]))
        line = _Line(line.x_px, float(middle), float(slope))
    return line


def _along(ridge: NDArray[np.float32], line: _Line, along: FloatArray) -> FloatArray:
    """The brightest within a pixel of the line at each place along it, (N,)."""
    x = (line.x_px + along).astype(np.float32)
    rows = [line.y_px + line.slope * along + off for off in (-0.7, 0.0, 0.7)]
    read = [
        cv2.remap(ridge, x[None], row.astype(np.float32)[None], cv2.INTER_LINEAR)[0] for row in rows
    ]
    return np.asarray(np.mean(read, axis=0), dtype=np.float64)


def _ends(
    along: FloatArray, bright: FloatArray, half: float, gap_px: float
) -> tuple[float, float] | None:
    """Where, going out from the middle, brightness falls through half and stays below.

    None if it does so on no place before the edge of what was looked at.
    """
    middle = int(np.argmin(np.abs(along)))
    right = _fall(bright[middle:], half, gap_px)
    left = _fall(bright[middle::-1], half, gap_px)
    if right is None or left is None:
        return None
    return float(along[middle] - left), float(along[middle] + right)


def _fall(outward: FloatArray, half: float, gap_px: float) -> float | None:
    above = np.flatnonzero(outward >= half)
    if not len(above) or above[0] > gap_px:
        return None
    breaks = np.flatnonzero(np.diff(above) > gap_px)
    last = int(above[breaks[0]] if len(breaks) else above[-1])
    if last + 1 >= len(outward):
        return None
    here, beyond = outward[last], outward[last + 1]
    return float(last + (here - half) / (here - beyond))
