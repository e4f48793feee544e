"""How far the camera leans to a side, told by the bay's own uprights.

Posts, walls, screens and doors stand upright.  A camera that leans by some angle turns them
all by it; one that looks up or down makes them converge, so their slant grows with their
distance from the picture's middle.  A straight line through slants over positions gives
the lean at the middle.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.club.reading import ShaftReading
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance

FloatArray = NDArray[np.float64]
Box = tuple[float, float, float, float]

_STEEPEST_DEG = 12.0
_SHORTEST_SHARE = 0.07
_FEWEST_LINES = 6
_LEAST_LENGTH_SHARE = 1.5
_MOST_LEAN_DEG = 6.0
"""Nobody sets a camera up more askew than that without seeing it."""
_AGREE_DEG = 1.5
_LEAST_AGREEING = 0.5
"""Of all near-uprights by length; foliage and nets, at any slant, agree an eighth at the most."""
_ROUNDS = 5
_LEANS_DEG = np.arange(-6.0, 6.01, 0.25)
_CONVERGENCES_DEG = np.arange(-8.0, 8.01, 0.5)
"""Over half the picture's width; a camera that looks up or down by 5 degrees makes 4 at most."""
_MOST_PICTURES, _DETAIL_PX, _CONTRAST = 24, 12.0, 10.0
_LEAST_SIGMA_DEG = 0.12


@dataclass(frozen=True, slots=True)
class Level:
    """How far uprights lean from the picture's own vertical.

    ``slant_deg``: + if their foot is to the right of their head; ``sigma_deg``: one-sigma.
    """

    slant_deg: float
    sigma_deg: float

    def __neg__(self) -> "Level":
        return Level(-self.slant_deg, self.sigma_deg)


SET_BY_EYE = Level(0.0, 1.5)
"""A camera set level by eye; no measurement, an assumption."""


def camera_level(greys: Sequence[NDArray[np.uint8]], golfer_box: Box) -> Level:
    """The level from pictures (h, w) of a still camera.

    ``golfer_box`` (left, top, right, bottom), px, is left out, for legs are no uprights.
    SET_BY_EYE if there are too few uprights.
    """
    slants, across, lengths = _uprights(_edges(greys), golfer_box)
    if len(slants) < _FEWEST_LINES:
        return SET_BY_EYE
    keep = _most_agreeing(across, slants, lengths)
    for _ in range(_ROUNDS):
        if keep.sum() < _FEWEST_LINES:
            return SET_BY_EYE
        lean, convergence, sigma = _line(across[keep], slants[keep], lengths[keep])
        keep = np.abs(slants - lean - convergence * across) < _AGREE_DEG
    agreeing = lengths[keep].sum() / lengths.sum()
    enough = lengths[keep].sum() >= _LEAST_LENGTH_SHARE * greys[0].shape[0]
    believable = abs(lean) <= _MOST_LEAN_DEG and sigma <= SET_BY_EYE.sigma_deg
    if agreeing < _LEAST_AGREEING or not enough or not believable:
        return SET_BY_EYE
    return Level(lean, sigma)


def _edges(greys: Sequence[NDArray[np.uint8]]) -> NDArray[np.uint8]:
    """The pictures' mean with its fine detail made plain: faint seams of a wall count too."""
    picks = np.linspace(0, len(greys) - 1, min(_MOST_PICTURES, len(greys))).astype(int)
    mean: NDArray[np.float32] = np.mean(
        np.stack([greys[k] for k in picks]), axis=0, dtype=np.float32
    )
    detail = mean - cv2.GaussianBlur(mean, (0, 0), _DETAIL_PX)
    return np.asarray(np.clip(128 + _CONTRAST * detail, 0, 255), dtype=np.uint8)


def _uprights(
    grey: NDArray[np.uint8], golfer_box: Box
) -> tuple[FloatArray, FloatArray, FloatArray]:
    """Slants, deg, places across from the middle, in half-widths, and lengths of uprights."""
    found = cv2.createLineSegmentDetector().detect(grey)[0]
    if found is None:
        return np.array([]), np.array([]), np.array([])
    ends = found.reshape(-1, 4).astype(np.float64)
    run = ends[:, 2:] - ends[:, :2]
    lengths = np.hypot(run[:, 0], run[:, 1])
    slants = (np.degrees(np.arctan2(run[:, 0], run[:, 1])) + 90) % 180 - 90
    middle = (ends[:, :2] + ends[:, 2:]) / 2
    left, top, right, bottom = golfer_box
    inside = (middle > [left, top]).all(axis=1) & (middle < [right, bottom]).all(axis=1)
    long_enough = lengths > _SHORTEST_SHARE * grey.shape[0]
    keep = (np.abs(slants) < _STEEPEST_DEG) & long_enough & ~inside
    half_width = grey.shape[1] / 2
    return slants[keep], middle[keep, 0] / half_width - 1, lengths[keep]


def _most_agreeing(
    across: FloatArray, slants: FloatArray, lengths: FloatArray
) -> NDArray[np.bool_]:
    """The uprights near that line through slants over places which most of them, by length, are.

    Every lean and convergence that a camera may have is tried, so that a wall at one side,
    with most of the lines, does not outvote the rest of the bay.
    """
    lines = _LEANS_DEG[:, None, None] + _CONVERGENCES_DEG[:, None] * across
    near = np.abs(slants - lines) < _AGREE_DEG
    best = np.unravel_index(int(np.argmax(near @ lengths)), near.shape[:2])
    return np.asarray(near[best])


def _line(
    across: FloatArray, slants: FloatArray, lengths: FloatArray
) -> tuple[float, float, float]:
    """Lean at the middle, convergence, and the lean's one-sigma, by weighted least squares.

    A line's slant is the surer the longer it is; convergence is held near 0 by a prior of
    5 degrees at the picture's edge, so that uprights on one side alone are not overread.
    """
    weights = lengths / lengths.max()
    design = np.column_stack([np.ones_like(across), across])
    normal = design.T @ (design * weights[:, None])
    normal[1, 1] += (_AGREE_DEG / 5.0) ** 2
    lean, convergence = np.linalg.solve(normal, design.T @ (slants * weights))
    misfit = slants - design @ np.array([lean, convergence])
    scatter = np.sqrt((weights * misfit**2).sum() / weights.sum())
    spread = float(scatter * np.sqrt(np.linalg.inv(normal)[0, 0]))
    return float(lean), float(convergence), float(np.hypot(spread, _LEAST_SIGMA_DEG))


def levelled_shaft(reading: ShaftReading, level: Level, stance: Stance) -> ShaftReading:
    """The reading as a level camera would have given it, face-on."""
    return replace(reading, angle_deg=reading.angle_deg - stance.toward_target * level.slant_deg)


def levelled(pose: Pose, level: Level, width_px: int, height_px: int) -> Pose:
    """The pose as a level camera would have seen it: turned about the picture's middle."""
    return replace(pose, pixels=levelled_px(pose.pixels, level, width_px, height_px))


def levelled_throughout(
    poses: Sequence[Pose], level: Level, width_px: int, height_px: int
) -> tuple[Pose, ...]:
    """``levelled`` of each pose, at least one."""
    pixels = levelled_px(np.stack([p.pixels for p in poses]), level, width_px, height_px)
    return tuple(replace(p, pixels=px) for p, px in zip(poses, pixels, strict=True))


def levelled_px(places_px: FloatArray, level: Level, width_px: int, height_px: int) -> FloatArray:
    """(..., 2) places where a level camera would have seen them."""
    slant = np.radians(level.slant_deg)
    turn = np.array([[np.cos(slant), -np.sin(slant)], [np.sin(slant), np.cos(slant)]])
    middle = np.array([width_px / 2, height_px / 2])
    return np.asarray((places_px - middle) @ turn.T + middle)
