"""Practice bays: invented rooms and what stands in them."""

from dataclasses import dataclass

from baycue.synthetic.light import BRIGHT, Lighting
from baycue.synthetic.rulers import LyingStick, StandingBoard

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
    front of them all, far ones first.  ``board`` and ``stick``, if any, tell the scale.
    """

    panels: tuple[Panel, ...]
    boxes: tuple[Box, ...] = ()
    posts: tuple[Post, ...] = ()
    lighting: Lighting = BRIGHT
    seed: int = 1
    board: StandingBoard | None = None
    stick: LyingStick | None = None


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
