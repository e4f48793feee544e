"""The empty bay as a still picture, drawn once per clip."""

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.plan.stance import Handedness
from baycue.synthetic.bay import Bay, Box, Panel, Post
from baycue.synthetic.camera import Camera
from baycue.synthetic.figure import joined, to_bay
from baycue.synthetic.light import Lighting, colour, shade
from baycue.synthetic.painter import (
    Facets,
    Flat,
    LinearColours,
    Window,
    coarsened,
    coloured,
    flatten,
    paint_numbers,
    palette,
)
from baycue.synthetic.rulers import lay_board, lay_stick
from baycue.synthetic.scene import FloatArray
from baycue.synthetic.surface import quad_normals


def backdrop(bay: Bay, camera: Camera, handedness: Handedness = Handedness.RIGHT) -> LinearColours:
    """(height, width, 3) linear light of the empty bay, seen once in perspective."""
    layers = [flatten(facets, camera) for facets in _bay_layers(bay, handedness)]
    flat = Flat(
        np.concatenate([layer.pixels for layer in layers]),
        np.concatenate([layer.depth_m for layer in layers]),
        np.concatenate([layer.colours for layer in layers]),
    )
    whole = Window(0, 0, camera.width_px, camera.height_px)
    layer = coarsened(coloured(paint_numbers(flat, whole), palette(flat)))
    void = np.float32(0.05 * bay.lighting.level)
    light = layer[..., :3] + void * (1.0 - layer[..., 3:])
    if bay.board is not None:
        lay_board(light, bay.board, camera, bay.lighting, handedness)
    if bay.stick is not None:
        lay_stick(light, bay.stick, camera, bay.lighting, handedness)
    return np.asarray(cv2.GaussianBlur(light, (0, 0), 0.8), np.float32)


def _bay_layers(bay: Bay, handedness: Handedness) -> list[Facets]:
    """Each panel in turn, then all things standing in the bay together."""
    rng = np.random.default_rng(bay.seed)
    layers = [_cells(panel, bay.lighting, rng) for panel in bay.panels]
    things = [_cells(s, bay.lighting, rng) for box in bay.boxes for s in _sides(box)]
    things += [_round(post, bay.lighting) for post in bay.posts]
    if things:
        layers.append(joined(*things))
    return [Facets(to_bay(layer.corners_m, handedness), layer.colours) for layer in layers]


def _cells(panel: Panel, lighting: Lighting, rng: np.random.Generator) -> Facets:
    edge, other = np.asarray(panel.edge, float), np.asarray(panel.other_edge, float)
    columns = max(1, round(float(np.linalg.norm(edge)) / panel.cell_m))
    rows = max(1, round(float(np.linalg.norm(other)) / panel.cell_m))
    a, b = np.meshgrid(np.arange(columns) / columns, np.arange(rows) / rows)
    first = np.asarray(panel.corner) + a[..., None] * edge + b[..., None] * other
    first = first.reshape(-1, 3)
    side, up = edge / columns, other / rows
    corners = np.stack([first, first + side, first + side + up, first + up], axis=1)
    mottle = 1 + panel.grain * rng.standard_normal(len(corners))
    albedo = colour(panel.colour) * np.clip(mottle, 0.3, 1.7)[:, None]
    return Facets(corners, _room_light(albedo, corners, lighting))


def _room_light(albedo: FloatArray, corners: FloatArray, lighting: Lighting) -> FloatArray:
    """Panels are lit from both sides; light falls off a little away from the bay's middle."""
    normals = quad_normals(corners)
    inward = np.einsum("qi,qi->q", normals, np.array([0.0, 1.2, 1.0]) - corners.mean(axis=1))
    normals = np.where((inward < 0)[:, None], -normals, normals)
    away = np.linalg.norm(corners.mean(axis=1) - np.array([0.0, 2.4, 0.6]), axis=1)
    falloff = 1.15 / (1 + (away / 6.5) ** 2)
    return np.asarray(shade(albedo, normals, lighting) * falloff[:, None])


def _sides(box: Box) -> list[Panel]:
    x, y, z = box.corner
    w, h, d = box.size
    return [
        Panel((x, y, z + d), (w, 0, 0), (0, h, 0), box.colour, 0.15),
        Panel((x, y, z), (0, 0, d), (0, h, 0), box.colour, 0.15),
        Panel((x + w, y, z), (0, 0, d), (0, h, 0), box.colour, 0.15),
        Panel((x, y + h, z), (w, 0, 0), (0, 0, d), box.colour, 0.15),
    ]


def _round(post: Post, lighting: Lighting) -> Facets:
    turn = np.linspace(0, 2 * np.pi, 13)
    ring = post.radius_m * np.stack([np.cos(turn), 0 * turn, -np.sin(turn)], axis=1)
    foot = np.asarray(post.foot) + ring
    top = foot + np.array([0.0, post.height_m, 0.0])
    corners = np.stack([foot[:-1], foot[1:], top[1:], top[:-1]], axis=1)
    corners = np.concatenate([corners, _lid(top, post)])
    normals = quad_normals(corners)
    albedo: NDArray[np.float64] = np.tile(colour(post.colour), (len(corners), 1))
    return Facets(corners, shade(albedo, normals, lighting))


def _lid(top: FloatArray, post: Post) -> FloatArray:
    middle = np.broadcast_to(top.mean(axis=0), (len(top) - 1, 3))
    return np.stack([top[:-1], top[1:], middle, middle], axis=1)
