"""A dressed body, posed and lit, as facets."""

import numpy as np

from baycue.plan.stance import Handedness
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import Dressed
from baycue.synthetic.light import Lighting, shade
from baycue.synthetic.painter import Facets
from baycue.synthetic.scene import FloatArray
from baycue.synthetic.skinning import skin
from baycue.synthetic.surface import quad_normals

_MIRROR = np.array([-1.0, 1.0, 1.0])


def to_bay(points_m: FloatArray, handedness: Handedness) -> FloatArray:
    """Motion's right-handed (..., 3) points as they stand in the bay of a golfer."""
    return points_m if handedness is Handedness.RIGHT else points_m * _MIRROR


def figure_facets(
    dressed: Dressed,
    bones: FloatArray,
    camera: Camera,
    lighting: Lighting,
    handedness: Handedness = Handedness.RIGHT,
) -> Facets:
    """The facets of a person that face the camera."""
    vertices = to_bay(skin(dressed.body, bones), handedness)
    corners = vertices[dressed.body.quads]
    if handedness is Handedness.LEFT:
        corners = corners[:, ::-1]
    normals = quad_normals(corners)
    facing = np.einsum("qi,qi->q", normals, camera.position_m - corners[:, 0]) > 0
    seen = facing | dressed.two_sided
    smooth = _unit(dressed.smoothing @ normals)
    lit = np.where(facing[:, None], smooth, -smooth)[seen]
    return Facets(corners[seen], shade(dressed.albedo[seen], lit, lighting))


def _unit(vectors: FloatArray) -> FloatArray:
    length = np.linalg.norm(vectors, axis=1, keepdims=True)
    return np.asarray(vectors / np.maximum(length, 1e-12))


def joined(*facets: Facets) -> Facets:
    """Several groups of facets as one."""
    return Facets(
        np.concatenate([f.corners_m for f in facets]),
        np.concatenate([f.colours for f in facets]),
    )
