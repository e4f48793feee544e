"""A soft shadow on the floor under the golfer."""

import cv2
import numpy as np

from baycue.plan.stance import Handedness
from baycue.synthetic.body import PART_NAMES
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import Dressed
from baycue.synthetic.figure import to_bay
from baycue.synthetic.light import Lighting
from baycue.synthetic.painter import NEAR_M, LinearColours
from baycue.synthetic.scene import FloatArray
from baycue.synthetic.skinning import skin

_COARSENESS = 4
_DEPTH = 0.5
_SOFTNESS = 0.012


def darken(
    light: LinearColours,
    dressed: Dressed,
    bones: FloatArray,
    camera: Camera,
    lighting: Lighting,
    handedness: Handedness = Handedness.RIGHT,
) -> None:
    """Take a person's shadow off (height, width, 3) ``light``, in place.

    Each body part throws the convex hull of its outline; the edge is blurred.
    """
    on_floor = _thrown(to_bay(skin(dressed.body, bones), handedness), lighting)
    pixels, depth = camera.project(on_floor)
    mask = np.zeros((camera.height_px // _COARSENESS, camera.width_px // _COARSENESS), np.float32)
    for part in np.unique(dressed.body.quad_parts):
        vertices = np.unique(dressed.body.quads[dressed.body.quad_parts == part])
        if PART_NAMES[part] != "eye" and depth[vertices].min() > NEAR_M:
            outline = (pixels[vertices] / _COARSENESS).astype(np.float32)
            cv2.fillConvexPoly(mask, np.rint(cv2.convexHull(outline)).astype(np.int32), 1.0)
    _multiply(light, 1.0 - _DEPTH * _softened(mask))


def _softened(mask: LinearColours) -> LinearColours:
    blur_px = max(1.0, _SOFTNESS * mask.shape[1])
    return np.asarray(cv2.GaussianBlur(mask, (0, 0), blur_px), np.float32)


def _multiply(light: LinearColours, coarse: LinearColours) -> None:
    """Multiply ``light`` by a coarse factor, touching only rows and columns below 1."""
    rows, columns = (
        np.flatnonzero((coarse < 1).any(axis=1)),
        np.flatnonzero((coarse < 1).any(axis=0)),
    )
    if not len(rows):
        return
    top, bottom, left, right = rows[0], rows[-1] + 1, columns[0], columns[-1] + 1
    part = coarse[top:bottom, left:right]
    size = part.shape[1] * _COARSENESS, part.shape[0] * _COARSENESS
    fine = cv2.resize(part, size, interpolation=cv2.INTER_LINEAR)
    touched = light[
        top * _COARSENESS : bottom * _COARSENESS, left * _COARSENESS : right * _COARSENESS
    ]
    touched *= fine[..., None]


def _thrown(points_m: FloatArray, lighting: Lighting) -> FloatArray:
    """Points moved along the light onto the floor, the lamp taken to stand steeply."""
    toward = np.asarray(lighting.toward) * [0.5, 1.0, 0.5]
    return np.asarray(points_m - (points_m[:, 1] / toward[1])[:, None] * toward)
