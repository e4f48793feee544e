"""Cut a body's quads along a seam, so that cloth ends in a clean line."""

from dataclasses import dataclass, field, replace

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.scene import Body, FloatArray, IntArray


def cut(body: Body, levels: FloatArray, chosen: NDArray[np.bool_]) -> Body:
    """Split the ``chosen`` (Q,) quads where ``levels`` (V,), one value a vertex, cross zero.

    Afterwards no chosen quad has corners both above and below zero.  New vertices lie on the
    old edges and share out their ends' skin weights.
    """
    above = levels[body.quads] > 0
    split = chosen & above.any(axis=1) & ~above.all(axis=1)
    if not split.any():
        return body
    scissors = _Scissors(levels)
    pieces: list[list[int]] = []
    parts: list[int] = []
    for quad, part in zip(body.quads[split], body.quad_parts[split], strict=True):
        new = scissors.snip([int(v) for v in quad])
        pieces += new
        parts += [int(part)] * len(new)
    longer = scissors.with_new_vertices(body)
    return replace(
        longer,
        quads=np.concatenate([body.quads[~split], np.array(pieces)]),
        quad_parts=np.concatenate([body.quad_parts[~split], np.array(parts)]),
    )


@dataclass(slots=True)
class _Scissors:
    """Splits quads one by one and remembers the vertices made on their edges."""

    levels: FloatArray
    made: dict[tuple[int, int], int] = field(default_factory=dict)

    def snip(self, quad: list[int]) -> list[list[int]]:
        """The quads (triangles repeat their last corner) on both sides of the seam."""
        corners = [v for i, v in enumerate(quad) if v != quad[i - 1]]
        sides: dict[bool, list[int]] = {True: [], False: []}
        for here, after in zip(corners, corners[1:] + corners[:1], strict=True):
            sides[self._above(here)].append(here)
            if self._above(here) != self._above(after):
                between = self._between(here, after)
                sides[True].append(between)
                sides[False].append(between)
        return [quad for side in sides.values() for quad in _as_quads(side)]

    def with_new_vertices(self, body: Body) -> Body:
        """The body with the made vertices appended."""
        ends = np.array(list(self.made))
        low, high = self.levels[ends[:, 0]], self.levels[ends[:, 1]]
        share = (low / (low - high))[:, None]
        points = body.vertices_m[ends]
        bones, weights = _shared_weights(body, ends, share)
        return replace(
            body,
            vertices_m=np.concatenate(
                [body.vertices_m, (1 - share) * points[:, 0] + share * points[:, 1]]
            ),
            skin_bones=np.concatenate([body.skin_bones, bones]),
            skin_weights=np.concatenate([body.skin_weights, weights]),
        )

    def _above(self, vertex: int) -> bool:
        return bool(self.levels[vertex] > 0)

    def _between(self, one: int, other: int) -> int:
        edge = (min(one, other), max(one, other))
        return self.made.setdefault(edge, len(self.levels) + len(self.made))


def _as_quads(polygon: list[int]) -> list[list[int]]:
    if len(polygon) <= 4:
        return [(polygon + polygon[-1:])[:4]]
    return [polygon[:4], [polygon[0], polygon[3], polygon[4], polygon[4]]]


def _shared_weights(body: Body, ends: IntArray, share: FloatArray) -> tuple[IntArray, FloatArray]:
    """Skin bones and weights of vertices between two ends: the strongest bones of both."""
    full = np.zeros((len(ends), len(body.bone_names)))
    rows = np.arange(len(ends))[:, None]
    for end, part in ((ends[:, 0], 1 - share), (ends[:, 1], share)):
        np.add.at(full, (rows, body.skin_bones[end]), part * body.skin_weights[end])
    kept = body.skin_bones.shape[1]
    bones = np.argsort(-full, axis=1, kind="stable")[:, :kept]
    weights = np.take_along_axis(full, bones, axis=1)
    return bones, weights / weights.sum(axis=1, keepdims=True)
