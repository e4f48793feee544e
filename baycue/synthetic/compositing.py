"""Lay people, club and ball over the empty bay, among one another by depth."""

from dataclasses import dataclass
from itertools import chain

import numpy as np

from baycue.synthetic.camera import Camera
from baycue.synthetic.painter import (
    SUPERSAMPLING,
    Flat,
    LinearColours,
    NumberedPicture,
    Window,
    coarsened,
    coloured,
    depths,
    paint_few,
    paint_numbers,
    palette,
)


@dataclass(frozen=True, slots=True)
class Slice:
    """A part of the exposure: who stood where, and the props' facets again and again."""

    people: Flat
    steps: list[list[Flat]]
    weight: float


def compose(camera: Camera, parts: list[Slice], light: LinearColours) -> None:
    """Lay the slices over (height, width, 3) ``light``, in place."""
    window = Window(0, 0, 0, 0)
    for flat in (f for part in parts for f in (part.people, *chain(*part.steps))):
        window = window.around(Window.holding(flat.pixels.reshape(-1, 2), camera))
    if window.empty:
        return
    gathered = np.zeros((*window.fine_shape, 4), np.float32)
    for part in parts:
        _gather(gathered, part, window, camera)
    layer = coarsened(gathered)
    seen = light[window.top : window.bottom, window.left : window.right]
    seen *= 1.0 - layer[..., 3:]
    seen += layer[..., :3]


def _gather(gathered: LinearColours, part: Slice, window: Window, camera: Camera) -> None:
    """Add one slice's people, then lay every step's props among them."""
    numbers = paint_numbers(part.people, window)
    table = palette(part.people)
    np.add(gathered, coloured(numbers, table * np.float32(part.weight)), out=gathered)
    weight = np.float32(part.weight / len(part.steps))
    depth_table = depths(part.people)
    for prop in chain(*part.steps):
        _lay(gathered, prop, _Under(numbers, table, depth_table, window), camera, weight)


@dataclass(frozen=True, slots=True)
class _Under:
    """The painted people that props are laid among."""

    numbers: NumberedPicture
    table: LinearColours
    depth_table: LinearColours
    window: Window


def _lay(
    gathered: LinearColours, prop: Flat, under: _Under, camera: Camera, weight: np.float32
) -> None:
    """Exchange people's or floor's light for the prop's, where the prop is nearer."""
    local = Window.holding(prop.pixels.reshape(-1, 2), camera)
    if local.empty:
        return
    painted = paint_few(prop, local)
    spots = np.flatnonzero(painted.ravel() != 0)
    number = painted.ravel()[spots]
    rows, columns = np.divmod(spots, painted.shape[1])
    rows += (local.top - under.window.top) * SUPERSAMPLING
    columns += (local.left - under.window.left) * SUPERSAMPLING
    below = under.numbers[rows, columns]
    nearer = depths(prop)[number] < under.depth_table[below]
    change = palette(prop)[number[nearer]] - under.table[below[nearer]]
    gathered[rows[nearer], columns[nearer]] += weight * change
