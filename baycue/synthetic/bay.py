"""The practice bay: an invented room, drawn once per clip as a still backdrop."""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.plan.stance import Handedness
from baycue.synthetic.camera import Camera
from baycue.synthetic.clothes import quad_normals
from baycue.synthetic.figure import joined, to_bay
from baycue.synthetic.light import BRIGHT, Lighting, colour, shade
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
from baycue.synthetic.scene import FloatArray

Corner = tuple[float, float, float]


@dataclass(frozen=True, slots=True)
class Panel:
    """A flat piece: a corner and its two edges, metres; cut in cells of about ``cell_m``.

    ``grain`` is how much the cells' brightness varies, as a fraction.
    """

    corner: Corner
    edge: Corner
    other_edge: Corner
    colour: str
    cell_m: float = 0.2
    grain: float = 0.04


@dataclass(frozen=True, slots=True)
class Box:
    """An upright box standing with its lowest corner at ``corner``."""

    corner: Corner
    size: Corner
    colour: str


@dataclass(frozen=True, slots=True)
class Post:
    """An upright round post or bag: foot, height and radius, metres."""

    foot: Corner
    height_m: float
    radius_m: float
    colour: str


@dataclass(frozen=True, slots=True)
class Bay:
    """What stands in the bay.

    ``panels`` are drawn in their order, later ones over earlier; boxes and posts stand in
    front of them all, far ones first.
    """

    panels: tuple[Panel, ...]
    boxes: tuple[Box, ...] = ()
    posts: tuple[Post, ...] = ()
    lighting: Lighting = BRIGHT
    seed: int = 1


_ROOM = (
    Panel((-6, 0, -2.6), (12, 0, 0), (0, 0, 7.5), "#77797b", cell_m=0.25, grain=0.03),
    Panel((-6, 0, -2.6), (12, 0, 0), (0, 3.4, 0), "#a9adae", cell_m=0.4, grain=0.015),
    Panel((-6, 0, -2.6), (0, 0, 7.5), (0, 3.4, 0), "#9a9ea1", cell_m=0.4, grain=0.015),
    Panel((-6, 3.4, -2.6), (12, 0, 0), (0, 0, 7.5), "#c3c5c6", cell_m=0.5, grain=0.01),
    Panel((4.4, 0, -2.6), (0, 0, 7.5), (0, 3.4, 0), "#d3d5d4", cell_m=0.3, grain=0.02),
    Panel((-1.1, 0.004, -0.75), (2.4, 0, 0), (0, 0, 2.2), "#3f7a49", cell_m=0.035, grain=0.10),
)

PLAIN = Bay(_ROOM)

CLUTTERED = Bay(
    panels=(
        *_ROOM,
        Panel((-6, 0.9, -2.58), (12, 0, 0), (0, 0.12, 0), "#b07a3e", cell_m=0.3),
        Panel((-1.9, 1.35, -2.57), (1.25, 0, 0), (0, 0.75, 0), "#15181c", grain=0.0),
        Panel((-1.86, 1.39, -2.56), (1.17, 0, 0), (0, 0.67, 0), "#4a7da8", cell_m=0.12, grain=0.35),
        Panel((0.9, 1.2, -2.57), (0.9, 0, 0), (0, 1.2, 0), "#d9d2b6", cell_m=0.15, grain=0.18),
    ),
    boxes=(
        Box((1.5, 0, -2.3), (0.7, 0.45, 0.45), "#a2763f"),
        Box((1.62, 0.45, -2.22), (0.45, 0.32, 0.35), "#8a6235"),
        Box((-2.9, 0, -2.35), (0.5, 0.95, 0.45), "#54606b"),
        Box((2.6, 0, -1.2), (0.35, 0.5, 0.35), "#2f4a63"),
        Box((-3.2, 0, 1.2), (0.4, 0.75, 0.4), "#5c4a3c"),
    ),
    posts=(
        Post((-2.2, 0, -1.9), 2.9, 0.05, "#c9b037"),
        Post((2.3, 0, -2.0), 2.9, 0.05, "#c9b037"),
        Post((-1.35, 0, -1.9), 0.95, 0.15, "#6c2430"),
        Post((1.1, 0, -2.1), 0.9, 0.14, "#23344a"),
        Post((3.4, 0, 1.6), 2.9, 0.05, "#c9b037"),
    ),
    seed=2,
)

DIM = Bay(CLUTTERED.panels, CLUTTERED.boxes, CLUTTERED.posts, Lighting(level=0.5), seed=3)

BAYS: dict[str, Bay] = {"plain": PLAIN, "cluttered": CLUTTERED, "dim": DIM}


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
