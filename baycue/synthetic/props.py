"""The club and the ball as facets.

Sizes: a ball is at least 42.67 mm across (equipment rules); the rest is common practice,
no source.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.synthetic.camera import Camera
from baycue.synthetic.light import Lighting, colour, shade
from baycue.synthetic.painter import Facets
from baycue.synthetic.scene import ClubPose, FloatArray, IntArray
from baycue.synthetic.surface import quad_normals

BALL_RADIUS_M = 0.02135
_SEGMENTS = 20
_GRIP_LENGTH_M = 0.26


@dataclass(frozen=True, slots=True)
class ClubLook:
    """How a club looks.

    ``head_size_m``: heel to toe, sole to top, face to back.  ``lie_deg``: between shaft
    and ground with the sole flat.
    """

    shaft: str = "#c3c7cc"
    gloss: str = "#ffffff"
    grip: str = "#1c1c1e"
    head: str = "#b4b8bd"
    head_size_m: tuple[float, float, float] = (0.078, 0.05, 0.02)
    lie_deg: float = 62.0
    rounded: bool = False
    butt_width_m: float = 0.0152
    tip_width_m: float = 0.0094


STEEL_IRON = ClubLook()
GRAPHITE_IRON = ClubLook(shaft="#2e2f33", gloss="#6a6c72")
DRIVER = ClubLook(
    shaft="#2a2b2f",
    gloss="#707278",
    head="#26282c",
    head_size_m=(0.115, 0.058, 0.10),
    lie_deg=57.0,
    rounded=True,
)


def club_facets(club: ClubPose, look: ClubLook, camera: Camera, lighting: Lighting) -> Facets:
    """Shaft, grip and head; the shaft is a ribbon turned to the camera, in short lengths."""
    shaft, head = _shaft(club, look, camera, lighting), _head(club, look, lighting)
    return Facets(
        np.concatenate([shaft.corners_m, head.corners_m]),
        np.concatenate([shaft.colours, head.colours]),
    )


def _shaft(club: ClubPose, look: ClubLook, camera: Camera, lighting: Lighting) -> Facets:
    span = club.head_m - club.butt_m
    length = float(np.linalg.norm(span))
    along = np.linspace(0.0, 1.0, _SEGMENTS + 1)
    centre = club.butt_m + along[:, None] * span
    across = np.cross(span, camera.position_m - centre)
    across /= np.maximum(np.linalg.norm(across, axis=1, keepdims=True), 1e-9)
    gripped = along * length < _GRIP_LENGTH_M
    width = look.butt_width_m + along * (look.tip_width_m - look.butt_width_m)
    width = np.where(gripped, 0.026 - 0.02 * along, width)
    edges = np.linspace(-0.5, 0.5, 4)
    rails = centre[:, None] + (width[:, None] * edges)[..., None] * across[:, None]
    corners = np.stack([rails[:-1, :-1], rails[1:, :-1], rails[1:, 1:], rails[:-1, 1:]], axis=2)
    colours = _shaft_colours(look, gripped[:-1]) * _tube_light(span / length, lighting)
    return Facets(corners.reshape(-1, 4, 3), colours.reshape(-1, 3))


def _shaft_colours(look: ClubLook, gripped: NDArray[np.bool_]) -> FloatArray:
    """(segments, 3 bands, 3) colours: a bright band between two darker ones."""
    bands = np.stack([0.75 * colour(look.shaft), colour(look.gloss), 0.6 * colour(look.shaft)])
    grip = np.stack([colour(look.grip), 1.6 * colour(look.grip), colour(look.grip)])
    return np.where(gripped[:, None, None], grip, bands)


def _tube_light(direction: FloatArray, lighting: Lighting) -> float:
    """Light on a thin cylinder: the lamp counts by the sine of its angle to the axis."""
    toward = np.asarray(lighting.toward) / np.linalg.norm(lighting.toward)
    sine = float(np.sqrt(max(0.0, 1.0 - float(direction @ toward) ** 2)))
    return lighting.level * (lighting.ambient + lighting.lamp * sine)


def _head(club: ClubPose, look: ClubLook, lighting: Lighting) -> Facets:
    down = (club.head_m - club.butt_m) / np.linalg.norm(club.head_m - club.butt_m)
    face = club.face_normal - (club.face_normal @ down) * down
    face /= np.linalg.norm(face)
    lie = np.radians(look.lie_deg)
    toe = np.cos(lie) * down + np.sin(lie) * np.cross(down, face)
    up = np.cross(face, toe)
    up = up if up @ down < 0 else -up
    wide, tall, deep = look.head_size_m
    unit, quads = _ball_mesh(6, 10) if look.rounded else _BOX
    middle = club.head_m + 0.18 * wide * toe + 0.1 * tall * up - 0.3 * deep * face
    half = 0.5 * np.array([wide, tall, deep])
    points = middle + (unit * half) @ np.stack([toe, up, face])
    return _lit(points[quads], colour(look.head), lighting)


def ball_facets(ball_m: FloatArray, lighting: Lighting) -> Facets:
    """A white ball."""
    unit, quads = _ball_mesh(6, 10)
    return _lit((ball_m + BALL_RADIUS_M * unit)[quads], colour("#f7f7f4"), lighting)


def _lit(corners_m: FloatArray, albedo: FloatArray, lighting: Lighting) -> Facets:
    outward = corners_m.mean(axis=1) - corners_m.mean(axis=(0, 1))
    normals = quad_normals(corners_m)
    normals *= np.sign(np.einsum("qi,qi->q", normals, outward))[:, None]
    return Facets(corners_m, shade(np.tile(albedo, (len(corners_m), 1)), normals, lighting))


def _ball_mesh(rings: int, columns: int) -> tuple[FloatArray, IntArray]:
    polar = np.linspace(0.02, np.pi - 0.02, rings + 1)
    round_ = np.linspace(0, 2 * np.pi, columns + 1)
    grid = np.stack(
        [
            np.outer(np.sin(polar), np.cos(round_)),
            np.outer(np.cos(polar), np.ones(columns + 1)),
            np.outer(np.sin(polar), np.sin(round_)),
        ],
        axis=-1,
    )
    first = (np.arange(rings)[:, None] * (columns + 1) + np.arange(columns)).ravel()
    step = columns + 1
    return grid.reshape(-1, 3), np.stack([first, first + step, first + step + 1, first + 1], axis=1)


_BOX: tuple[FloatArray, IntArray] = (
    np.array(
        [
            [x, y * (0.62 if x < 0 else 1.0), z]
            for x in (-1.0, 1.0)
            for y in (-1.0, 1.0)
            for z in (-1.0, 1.0)
        ]
    ),
    np.array([[0, 1, 3, 2], [4, 6, 7, 5], [0, 4, 5, 1], [2, 3, 7, 6], [0, 2, 6, 4], [1, 5, 7, 3]]),
)
