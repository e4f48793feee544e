"""A soft shadow on the floor under the golfer."""

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.plan.stance import Handedness
from baycue.synthetic.body import PART_NAMES
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import Dressed
from baycue.synthetic.figure import to_bay
from baycue.synthetic.light import Lighting
from baycue.synthetic.scene import FloatArray
from baycue.synthetic.skinning import skin

_COARSENESS = 4
_DEPTH = 0.5
_SOFTNESS = 0.012


def shadow_shade(
    dressed: Dressed,
    bones: FloatArray,
    camera: Camera,
    lighting: Lighting,
    handedness: Handedness = Handedness.RIGHT,
) -> NDArray[np.float32]:
    """(height, width) factor on the floor's light: 1 in the open, less in the shadow.

    Each body part throws the convex hull of its outline; the edge is blurred.
    """
    on_floor = _thrown(to_bay(skin(dressed.body, bones), handedness), lighting)
    pixels, depth = camera.project(on_floor)
    rows, columns = camera.height_px // _COARSENESS, camera.width_px // _COARSENESS
    mask = np.zeros((rows, columns), np.float32)
    for part in np.unique(dressed.body.quad_parts):
        vertices = np.unique(dressed.body.quads[dressed.body.quad_parts == part])
        if PART_NAMES[part] != "eye" and depth[vertices].min() > 0.2:
            outline = (pixels[vertices] / _COARSENESS).astype(np.float32)
            cv2.fillConvexPoly(mask, np.rint(cv2.convexHull(outline)).astype(np.int32), 1.0)
    soft = cv2.GaussianBlur(mask, (0, 0), max(1.0, _SOFTNESS * columns))
    full = cv2.resize(soft, (camera.width_px, camera.height_px), interpolation=cv2.INTER_LINEAR)
    return np.asarray(1.0 - _DEPTH * full, np.float32)


def _thrown(points_m: FloatArray, lighting: Lighting) -> FloatArray:
    """Points moved along the light onto the floor, the lamp taken to stand steeply."""
    toward = np.asarray(lighting.toward) * [0.5, 1.0, 0.5]
    return np.asarray(points_m - (points_m[:, 1] / toward[1])[:, None] * toward)
