"""Normals of a body's surface, and how they blend over neighbouring quads."""

import numpy as np
from scipy.sparse import coo_array, csr_array

from baycue.synthetic.scene import Body, FloatArray


def to_vertices(body: Body, per_quad: FloatArray) -> FloatArray:
    """(V, k) means of the (Q, k) values of the quads that meet at each vertex."""
    total = np.zeros((len(body.vertices_m), per_quad.shape[1]))
    count = np.zeros((len(body.vertices_m), 1))
    for corner in range(4):
        np.add.at(total, body.quads[:, corner], per_quad)
        np.add.at(count, body.quads[:, corner], 1.0)
    return np.asarray(total / np.maximum(count, 1.0))


def smoothing(body: Body) -> csr_array:
    """Quads to vertices to quads: every quad takes the mean over those it touches."""
    count = len(body.quads)
    quads = np.repeat(np.arange(count), 4)
    touch = coo_array((np.full(4 * count, 0.25), (quads, body.quads.ravel()))).tocsr()
    return csr_array(touch @ touch.T)


def vertex_normals(body: Body) -> FloatArray:
    """(V, 3) unit normals at rest."""
    normals = to_vertices(body, quad_normals(body.vertices_m[body.quads]))
    length = np.linalg.norm(normals, axis=1, keepdims=True)
    return np.asarray(normals / np.maximum(length, 1e-9))


def quad_normals(corners_m: FloatArray) -> FloatArray:
    """(Q, 3) unit normals of (Q, 4, 3) corners, counter-clockwise seen from outside."""
    across = corners_m[:, 2] - corners_m[:, 0]
    other = corners_m[:, 3] - corners_m[:, 1]
    normals = np.cross(across, other)
    return np.asarray(normals / np.maximum(np.linalg.norm(normals, axis=1, keepdims=True), 1e-12))
