"""The painter's algorithm: far facets first, each filled in one colour.

Facets are painted by number, not by colour: the numbered picture then gives, per pixel,
colour and depth alike, so that a fast club can be laid among a slower body's facets.
"""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.camera import Camera
from baycue.synthetic.scene import FloatArray

SUPERSAMPLING = 2
NEAR_M = 0.15
_SUBPIXEL_BITS = 4

NumberedPicture = NDArray[np.int32]
LinearColours = NDArray[np.float32]


@dataclass(frozen=True, slots=True, eq=False)
class Facets:
    """Four-cornered facets: (N, 4, 3) world corners, (N, 3) linear-light BGR 0 to 1."""

    corners_m: FloatArray
    colours: FloatArray


@dataclass(frozen=True, slots=True)
class Window:
    """A part of the picture, whole px; right and bottom are just outside."""

    left: int
    top: int
    right: int
    bottom: int

    @property
    def empty(self) -> bool:
        """Whether no pixel lies inside."""
        return self.right <= self.left or self.bottom <= self.top

    @property
    def fine_shape(self) -> tuple[int, int]:
        """(rows, columns) of the supersampled window."""
        return (
            (self.bottom - self.top) * SUPERSAMPLING,
            (self.right - self.left) * SUPERSAMPLING,
        )

    def around(self, other: "Window") -> "Window":
        """The least window that holds both."""
        if self.empty or other.empty:
            return other if self.empty else self
        return Window(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )

    @staticmethod
    def holding(pixels: FloatArray, camera: Camera, margin_px: int = 3) -> "Window":
        """The least window with all (N, 2) pixels, cut to the picture."""
        if not len(pixels):
            return Window(0, 0, 0, 0)
        low = np.floor(pixels.min(axis=0)).astype(int) - margin_px
        high = np.ceil(pixels.max(axis=0)).astype(int) + margin_px + 1
        return Window(
            max(int(low[0]), 0),
            max(int(low[1]), 0),
            min(int(high[0]), camera.width_px),
            min(int(high[1]), camera.height_px),
        )


@dataclass(frozen=True, slots=True, eq=False)
class Flat:
    """Facets laid on the picture plane, far ones first.

    ``pixels``: (N, 4, 2).  ``depth_m``: (N,) of each facet's middle.  ``colours``: (N, 3).
    """

    pixels: FloatArray
    depth_m: FloatArray
    colours: FloatArray


def flatten(facets: Facets, camera: Camera) -> Flat:
    """Project facets and sort them; those not wholly before the camera are dropped."""
    flat, depth = camera.project(facets.corners_m.reshape(-1, 3))
    pixels, depths = flat.reshape(-1, 4, 2), depth.reshape(-1, 4)
    before = np.flatnonzero(depths.min(axis=1) > NEAR_M)
    middle = depths[before].mean(axis=1)
    order = np.argsort(-middle, kind="stable")
    kept = before[order]
    return Flat(pixels[kept], middle[order], facets.colours[kept])


def paint_numbers(flat: Flat, window: Window) -> NumberedPicture:
    """Paint facet i as number i + 1 on a supersampled window; 0 where there is none."""
    picture = np.zeros(window.fine_shape, np.int32)
    _fill(picture, flat, window)
    return picture


def paint_few(flat: Flat, window: Window) -> NDArray[np.uint8]:
    """As ``paint_numbers``, for at most 255 facets."""
    if len(flat.depth_m) > 255:
        raise ValueError(f"{len(flat.depth_m)} facets; paint_few takes at most 255")
    picture = np.zeros(window.fine_shape, np.uint8)
    _fill(picture, flat, window)
    return picture


def _fill(picture: NDArray[np.uint8] | NumberedPicture, flat: Flat, window: Window) -> None:
    corners = _fixed_point(flat.pixels, window)
    for number, corner in enumerate(corners, start=1):
        cv2.fillConvexPoly(picture, corner, number, cv2.LINE_8, _SUBPIXEL_BITS)


def _fixed_point(pixels: FloatArray, window: Window) -> NDArray[np.int32]:
    fine = (pixels - [window.left, window.top] + 0.5) * SUPERSAMPLING - 0.5
    return np.clip(np.rint(fine * (1 << _SUBPIXEL_BITS)), -(2**30), 2**30).astype(np.int32)


def palette(flat: Flat) -> LinearColours:
    """(N + 1, 4) linear BGR and coverage by facet number; number 0 is clear."""
    table = np.zeros((len(flat.colours) + 1, 4), np.float32)
    table[1:, :3] = flat.colours
    table[1:, 3] = 1.0
    return table


def coloured(numbers: NumberedPicture, table: LinearColours) -> LinearColours:
    """(rows, columns, 4) linear BGR, times coverage, and coverage of a numbered picture."""
    sixteen_bytes = table.view(np.complex128).ravel()
    return np.take(sixteen_bytes, numbers).view(np.float32).reshape(*numbers.shape, 4)


def depths(flat: Flat) -> NDArray[np.float32]:
    """(N + 1,) depth by facet number, metres; number 0 is infinitely far."""
    return np.concatenate([[np.inf], flat.depth_m]).astype(np.float32)


def coarsened(fine: LinearColours) -> LinearColours:
    """Average a supersampled picture down to its pixels."""
    rows, columns = fine.shape[0] // SUPERSAMPLING, fine.shape[1] // SUPERSAMPLING
    return cv2.resize(fine, (columns, rows), interpolation=cv2.INTER_AREA).astype(np.float32)
