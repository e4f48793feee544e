"""What was seen of a golfer, drawn on a picture: body, shaft, and the marks of measures."""

from collections.abc import Iterable

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.capture.frame import Picture
from baycue.club.reading import Evidence, ShaftReading
from baycue.cues.palette import Colour
from baycue.measures.marks import Arc, Area, Dot, Line, Mark, Role
from baycue.pose.pose import Pose
from baycue.pose.sides import LEFT, RIGHT, Side, Stance
from baycue.swing.hands import grip_px, hand_sample

BODY: Colour = (244, 242, 236)
SHAFT: Colour = (70, 178, 255)
GUESSED_SHAFT: Colour = (190, 160, 255)
MEASURED: Colour = (255, 214, 64)
FROM: Colour = (86, 214, 196)
LANE: Colour = (150, 200, 255)

_CASING: Colour = (16, 21, 28)
_SHAFT_BODIES = 0.62
_DASHES = 9
_ARC_STEP_DEG = 4.0
_ROLE_COLOUR = {Role.MEASURED: MEASURED, Role.FROM: FROM, Role.LANE: LANE}
_WEDGE_OPACITY = 0.45
_SHIFT = 4
"""OpenCV's fractional bits of a drawn point: sixteenths of a pixel."""

Points = NDArray[np.float64]


def draw_body(picture: Picture, pose: Pose) -> None:
    """Arms, trunk and legs as lines with a dark edge, so that they show on any clothes."""
    chains = [pose.pixels[list(chain)] for side in (LEFT, RIGHT) for chain in _chains(side)]
    across = [
        pose.pixels[[LEFT.shoulder, RIGHT.shoulder]],
        pose.pixels[[LEFT.hip, RIGHT.hip]],
    ]
    _lines(picture, [*chains, *across], BODY, _thickness(picture))


def draw_marks(picture: Picture, marks: Iterable[Mark]) -> None:
    """What measures show, areas first so that nothing is covered."""
    for mark in sorted(marks, key=lambda m: not isinstance(m, Area)):
        _draw_mark(picture, mark, _ROLE_COLOUR[mark.role], _thickness(picture))


def _draw_mark(picture: Picture, mark: Mark, colour: Colour, thick: int) -> None:
    wide = 2 * thick if mark.role is Role.MEASURED else thick
    if isinstance(mark, Area):
        _tint(picture, mark.outline_px, colour)
    elif isinstance(mark, Dot):
        _dot(picture, mark.place_px, colour, 2 * thick)
    elif isinstance(mark, Arc):
        _lines(picture, [arc_points(mark)], colour, wide)
    else:
        _lines(picture, _chains_of(mark), colour, wide)


def arc_points(arc: Arc) -> Points:
    """(N, 2) points along an arc, px, a step every few degrees."""
    steps = max(2, round(abs(arc.end_deg - arc.start_deg) / _ARC_STEP_DEG) + 1)
    angles = np.radians(np.linspace(arc.start_deg, arc.end_deg, steps))
    return np.asarray(
        arc.centre_px + arc.radius_px * np.column_stack([np.cos(angles), np.sin(angles)])
    )


def _chains_of(line: Line) -> list[Points]:
    if not line.dashed:
        return [line.points_px]
    pairs = zip(line.points_px[:-1], line.points_px[1:], strict=True)
    return [dash for start, end in pairs for dash in _dashes(start, end)]


def draw_shaft(picture: Picture, pose: Pose, shaft: ShaftReading, stance: Stance) -> None:
    """The shaft from the hands inside a wedge of its one-sigma; dashed where not seen."""
    hands, reach = grip_px(pose), _SHAFT_BODIES * hand_sample(pose).body_px
    seen = shaft.evidence is Evidence.PICTURE
    spread = [
        shaft_end(hands, reach, shaft.angle_deg + offset, stance)
        for offset in np.linspace(-shaft.sigma_deg, shaft.sigma_deg, 7)
    ]
    colour = SHAFT if seen else GUESSED_SHAFT
    _tint(picture, np.array([hands, *spread]), colour)
    end = shaft_end(hands, reach, shaft.angle_deg, stance)
    whole = [np.array([hands, end])]
    _lines(picture, whole if seen else _dashes(hands, end), colour, _thickness(picture))


def shaft_end(hands: Points, reach_px: float, angle_deg: float, stance: Stance) -> Points:
    """Where the shaft's far end shows, (2,) px; 0 deg is straight down, +90 to the target."""
    angle = np.radians(angle_deg)
    along = np.array([np.sin(angle) * stance.toward_target, np.cos(angle)])
    return np.asarray(hands + reach_px * along)


def _chains(side: Side) -> tuple[tuple[int, ...], ...]:
    arm = (side.shoulder, side.elbow, side.wrist)
    return arm, (side.shoulder, side.hip, side.knee, side.ankle), (side.ankle, side.toe)


def _dashes(start: Points, end: Points) -> list[Points]:
    steps = np.linspace(0, 1, 2 * _DASHES)[:, None]
    places = start + steps * (end - start)
    return [places[i : i + 2] for i in range(0, len(places), 2)]


def _lines(picture: Picture, chains: list[Points], colour: Colour, thick: int) -> None:
    drawn = [_fixed(chain) for chain in chains]
    for ink, wide in ((_CASING, thick + 2), (colour, thick)):
        cv2.polylines(picture, drawn, False, _bgr(ink), wide, cv2.LINE_AA, _SHIFT)


def _dot(picture: Picture, place: Points, colour: Colour, radius: int) -> None:
    x, y = (int(v) for v in _fixed(place))
    for ink, size in ((_CASING, radius + 1), (colour, radius)):
        cv2.circle(picture, (x, y), size << _SHIFT, _bgr(ink), cv2.FILLED, cv2.LINE_AA, _SHIFT)


def _tint(picture: Picture, outline: Points, colour: Colour) -> None:
    """Blend a polygon into the picture."""
    over = picture.copy()
    cv2.fillPoly(over, [_fixed(outline)], _bgr(colour), cv2.LINE_AA, _SHIFT)
    cv2.addWeighted(over, _WEDGE_OPACITY, picture, 1 - _WEDGE_OPACITY, 0, dst=picture)


def _fixed(places_px: Points) -> NDArray[np.int32]:
    return np.round(places_px * (1 << _SHIFT)).astype(np.int32)


def _bgr(colour: Colour) -> tuple[int, int, int]:
    red, green, blue = colour
    return blue, green, red


def _thickness(picture: Picture) -> int:
    return max(1, round(min(int(side) for side in picture.shape[:2]) / 300))
