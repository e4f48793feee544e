"""Linear blend skinning: bones carry the body's surface."""

import numpy as np

from baycue.synthetic.scene import Body, FloatArray


def skin(body: Body, bones: FloatArray) -> FloatArray:
    """The (V, 3) vertices, metres, of a body whose bones stand at (B, 4, 4) ``bones``.

    v = sum_i w_i (bones[i] @ inv(rest[i])) v_rest: linear blend skinning, as in Magnenat-
    Thalmann, Laperriere & Thalmann 1988, Graphics Interface (from memory).
    """
    return carry(body, bones, body.vertices_m)


def carry(body: Body, bones: FloatArray, vertices_m: FloatArray) -> FloatArray:
    """As ``skin``, for rest vertices of the caller's own (a dressed body's)."""
    moves = (bones @ np.linalg.inv(body.bone_rest))[:, :3]
    blended = np.zeros((len(vertices_m), 3, 4))
    for influence in range(body.skin_bones.shape[1]):
        share = body.skin_weights[:, influence, None, None]
        blended += share * moves[body.skin_bones[:, influence]]
    return np.asarray(np.einsum("vij,vj->vi", blended[..., :3], vertices_m) + blended[..., 3])
