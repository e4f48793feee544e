"""Parts that a body's own mesh has not: the brim of a cap, a ponytail."""

from dataclasses import dataclass

import numpy as np

from baycue.synthetic.body import PART_NAMES
from baycue.synthetic.scene import Body, FloatArray, IntArray


@dataclass(frozen=True, slots=True, eq=False)
class Added:
    """Extra quads that ride on the head bone: (n, 3) vertices, (q, 4) quads, one colour."""

    vertices_m: FloatArray
    quads: IntArray
    albedo: FloatArray


def _grid_quads(rows: int, columns: int) -> IntArray:
    first = (np.arange(rows - 1)[:, None] * columns + np.arange(columns - 1)).ravel()
    return np.stack([first, first + columns, first + columns + 1, first + 1], axis=1)


def _eyes_m(body: Body) -> FloatArray:
    eyes = body.quads[body.quad_parts == PART_NAMES.index("eye")]
    return np.asarray(body.vertices_m[eyes].reshape(-1, 3).mean(axis=0))


def cap_brim(body: Body, albedo: FloatArray) -> Added:
    """A curved brim in front of the brow."""
    size = body.stature_m
    centre = _eyes_m(body) + np.array([0.0, 0.027, -0.030]) * size
    angle = np.linspace(-1.15, 1.15, 9)
    rows = []
    for reach in (0.0, 0.5, 1.0):
        x = (0.043 + 0.004 * reach) * np.sin(angle)
        z = 0.040 * np.cos(angle) + 0.040 * reach * np.cos(angle) ** 0.7
        y = -0.010 * reach - 0.008 * np.abs(np.sin(angle)) ** 2
        rows.append(centre + size * np.stack([x, y, z], axis=1))
    return Added(np.concatenate(rows), _grid_quads(3, len(angle)), albedo * 0.9)


def ponytail(body: Body, albedo: FloatArray) -> Added:
    """A tapering tail of hair behind the head."""
    size = body.stature_m
    root = _eyes_m(body) + np.array([0.0, 0.008, -0.105]) * size
    rows = []
    for along in np.linspace(0.0, 1.0, 6):
        width = 0.014 * np.sin(0.5 + 2.3 * along) + 0.003
        middle = root + size * np.array([0.0, -0.085 * along, -0.016 * np.sin(3.1 * along)])
        turn = np.linspace(0, 2 * np.pi, 7)
        ring = np.stack([np.cos(turn), np.zeros(7), np.sin(turn)], axis=1)
        rows.append(middle + size * width * ring)
    return Added(np.concatenate(rows), _grid_quads(6, 7), albedo)
