"""What a lens that bows straight lines may do to a measure, for the picture is not straightened.

Radial distortion: a point r half-widths from the picture's middle appears at r (1 - bow r^2)
(Brown 1971, Photogrammetric Engineering 37:855; its first term).  There lengths along the
radius shrink by 3 bow r^2 and those across it by bow r^2.
"""

import numpy as np

from baycue.measures.evidence import Camera, FloatArray


def stretch_share(camera: Camera, places_px: FloatArray) -> float:
    """How much lengths along and across the radius differ at the outermost of (N, 2) places."""
    radii = np.linalg.norm(_from_middle(camera, places_px), axis=-1)
    return float(2 * abs(camera.lens_bow) * np.max(radii) ** 2)


def lean_deg(camera: Camera, place_px: FloatArray) -> float:
    """How far an upright line at a (2,) place is turned: the slope 2 bow x y of its image."""
    across, down = _from_middle(camera, place_px)
    return float(np.degrees(np.arctan(2 * abs(camera.lens_bow * across * down))))


def _from_middle(camera: Camera, places_px: FloatArray) -> FloatArray:
    half_px = camera.width_px / 2
    return np.asarray((places_px - np.array([half_px, camera.height_px / 2])) / half_px)
