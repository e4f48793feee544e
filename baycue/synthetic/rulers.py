"""Things of known size that may stand or lie in a bay: a printed board, a bright stick.

They are laid into the empty bay finely, by OpenCV's own warping, for they are measured to a
small part of a pixel.
"""

from dataclasses import dataclass

import cv2
import numpy as np

from baycue.bay.board_page import PX_PER_MM, Paper, board_page
from baycue.plan.stance import Handedness
from baycue.synthetic.camera import Camera
from baycue.synthetic.figure import to_bay
from baycue.synthetic.light import Lighting, colour, linear_from_srgb, shade
from baycue.synthetic.painter import LinearColours
from baycue.synthetic.scene import FloatArray

_FINER = 4
_ROUND_ABOUT_PX = 4
_INK, _WHITE = "#1b1b1b", "#f2f2ee"


@dataclass(frozen=True, slots=True)
class StandingBoard:
    """The A4 scale board: the middle of its foot, metres, and how far it is turned.

    ``turned_deg``: its face to the camera's right; ``leaning_deg``: its head away from it.
    """

    foot_m: tuple[float, float, float] = (0.46, 0.0, 0.0)
    turned_deg: float = 0.0
    leaning_deg: float = 0.0


@dataclass(frozen=True, slots=True)
class LyingStick:
    """A stick along the target line: its middle, how long, how thick, how far turned."""

    middle_m: tuple[float, float, float] = (0.0, 0.006, 0.25)
    length_m: float = 1.0
    thickness_m: float = 0.010
    turned_deg: float = 0.0
    colour: str = "#f4f1e4"


def lay_board(
    light: LinearColours,
    board: StandingBoard,
    camera: Camera,
    lighting: Lighting,
    handedness: Handedness,
) -> None:
    """Draw the board into (height, width, 3) ``light``, in place."""
    paper = Paper.A4
    across = _turned(np.array([paper.width_mm * 1e-3, 0, 0]), -board.turned_deg)
    lean = np.radians(board.leaning_deg)
    back = _turned(np.array([0, 0, -1.0]), -board.turned_deg)
    up = paper.height_mm * 1e-3 * (np.cos(lean) * np.array([0, 1.0, 0]) + np.sin(lean) * back)
    foot = to_bay(np.array(board.foot_m), handedness)
    corners = foot + np.array([up - across / 2, up + across / 2, across / 2, -across / 2])
    normal = np.cross(across, up)[None] / np.linalg.norm(np.cross(across, up))
    ink = linear_from_srgb(board_page(paper)[..., None] / 255)
    shares = np.asarray(ink, np.float32) * (colour(_WHITE) - colour(_INK)) + colour(_INK)
    lit = shade(np.ones((1, 3)), normal, lighting)
    _lay(light, (shares * lit).astype(np.float32), corners, camera, PX_PER_MM * 1000)


def lay_stick(
    light: LinearColours,
    stick: LyingStick,
    camera: Camera,
    lighting: Lighting,
    handedness: Handedness,
) -> None:
    """Draw the stick into (height, width, 3) ``light``, in place: a ribbon facing the camera."""
    middle = to_bay(np.array(stick.middle_m), handedness)
    half = _turned(np.array([stick.length_m / 2, 0, 0]), -stick.turned_deg)
    across = np.cross(camera.position_m - middle, half)
    across *= stick.thickness_m / 2 / np.linalg.norm(across)
    across = across if across[1] > 0 else -across
    corners = middle + np.array([across - half, across + half, half - across, -half - across])
    lit = shade(colour(stick.colour)[None], np.array([[0.0, 1.0, 0.0]]), lighting)
    size = round(2000 * stick.thickness_m), round(2000 * stick.length_m)
    _lay(light, np.broadcast_to(lit, (*size, 3)).astype(np.float32), corners, camera, 2000)


def _turned(vector: FloatArray, about_up_deg: float) -> FloatArray:
    turn = cv2.Rodrigues(np.array([0.0, np.radians(about_up_deg), 0.0]))[0]
    return np.asarray(turn @ vector)


def _lay(
    light: LinearColours,
    texture: LinearColours,
    corners_m: FloatArray,
    camera: Camera,
    texture_px_per_m: float,
) -> None:
    """Lay a texture (h, w, 3) with its corners at (4, 3), from the top left clockwise.

    Nothing is drawn if none of it is in the picture.
    """
    pixels, depth_m = camera.project(corners_m)
    fine_px_per_m = _FINER * camera.focal_px / float(depth_m.min())
    shrink = min(1.0, fine_px_per_m / texture_px_per_m)
    size = [max(1, round(side * shrink)) for side in texture.shape[1::-1]]
    small = cv2.resize(texture, size, interpolation=cv2.INTER_AREA)
    low = np.floor(pixels.min(axis=0)).astype(int) - _ROUND_ABOUT_PX
    high = np.ceil(pixels.max(axis=0)).astype(int) + _ROUND_ABOUT_PX
    low, high = np.maximum(low, 0), np.minimum(high, [camera.width_px, camera.height_px])
    if (high <= low).any():
        return
    edges = np.array([[0, 0], [size[0], 0], size, [0, size[1]]]) - 0.5
    fine = (pixels - low + 0.5) * _FINER - 0.5
    warp = cv2.getPerspectiveTransform(edges.astype(np.float32), fine.astype(np.float32))
    laid = np.dstack([small, np.ones(small.shape[:2], np.float32)])
    window = tuple(int(side) for side in (high - low))
    warped = cv2.warpPerspective(laid, warp, (window[0] * _FINER, window[1] * _FINER))
    layer = cv2.resize(warped, window, interpolation=cv2.INTER_AREA)
    seen = light[low[1] : high[1], low[0] : high[0]]
    seen *= 1 - layer[..., 3:]
    seen += layer[..., :3]
