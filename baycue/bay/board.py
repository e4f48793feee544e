"""A printed board of known size, found in a picture.

The board is OpenCV's ChArUco: a chessboard whose white squares hold square markers.  A marker
tells where the board is, or, where they are too small to be read, the place that looks most
like the whole board.  The print is then laid over the picture and shifted, turned and
stretched until it fits best, which places it to a small part of a pixel and tells it from
anything else.
"""

from dataclasses import dataclass
from functools import lru_cache

import cv2
import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]
Picture = NDArray[np.uint8]

SQUARES_ACROSS, SQUARES_UP = 2, 3
SQUARE_M, MARKER_M = 0.080, 0.063
"""As large as A4 and Letter both hold beside a ruler line; markers must be read 4 m away."""
WIDTH_M, HEIGHT_M = SQUARES_ACROSS * SQUARE_M, SQUARES_UP * SQUARE_M

_RIM_M = 0.010
"""White paper about the board that is compared too."""
_PRINT_PX_PER_M = 2000
_ENLARGED = 3
"""Markers a dozen pixels wide are read only in an enlarged picture."""
_SMALLEST_PERIMETER_SHARE = 0.01
_COARSER = 2
_HALF = (_COARSER - 1) / 2
_LOOKED_FOR_PX_PER_M, _SIZES, _TRIED = (110.0, 600.0), 16, 3
_FINER = 2.0
_BLUR_PX = 0.8
_LEAST_LIKENESS = 0.80
_ROUNDS, _CLOSE_ENOUGH = 100, 1e-6


@dataclass(frozen=True, slots=True)
class BoardSeen:
    """Where the board lies in a picture.

    ``corners_px``: (4, 2) outer corners of the chessboard, as printed: top left, top right,
    bottom right, bottom left.  ``likeness``: correlation of print and picture, 0 to 1.
    """

    corners_px: FloatArray
    likeness: float


def charuco_board() -> cv2.aruco.CharucoBoard:
    """The board in metres, by OpenCV."""
    words = cv2.aruco.getPredefinedDictionary(cv2.aruco.DICT_4X4_50)
    return cv2.aruco.CharucoBoard((SQUARES_ACROSS, SQUARES_UP), SQUARE_M, MARKER_M, words)


@lru_cache(maxsize=4)
def board_picture(px_per_m: int) -> Picture:
    """The board at that size, black on white, up to its outermost squares."""
    size = round(WIDTH_M * px_per_m), round(HEIGHT_M * px_per_m)
    return np.asarray(charuco_board().generateImage(size, marginSize=0), dtype=np.uint8)


def find_board(picture_bgr: Picture, mirrored: bool = False) -> BoardSeen | None:
    """The board in a picture (h, w, 3), or None; ``mirrored``: the picture is, left for right."""
    grey: Picture = np.asarray(cv2.cvtColor(picture_bgr, cv2.COLOR_BGR2GRAY), dtype=np.uint8)
    seen = _find(np.ascontiguousarray(grey[:, ::-1]) if mirrored else grey)
    if seen is None or not mirrored:
        return seen
    back = seen.corners_px * [-1, 1] + [grey.shape[1] - 1, 0]
    return BoardSeen(back, seen.likeness)


def _find(grey: Picture) -> BoardSeen | None:
    """The likeliest of what the markers suggest, or else of what looks like the board."""
    for guesses in (_by_markers, _by_looks):
        found = [_fitted(grey, guess) for guess in guesses(grey)]
        sure = [seen for seen in found if seen and seen.likeness >= _LEAST_LIKENESS]
        if sure:
            return max(sure, key=lambda seen: seen.likeness)
    return None


def _by_looks(grey: Picture) -> list[FloatArray]:
    """(3, 3) board metres to picture px for the places most like an upright board."""
    small = cv2.resize(grey, None, fx=1 / _COARSER, fy=1 / _COARSER, interpolation=cv2.INTER_AREA)
    places = []
    for px_per_m in np.geomspace(*_LOOKED_FOR_PX_PER_M, _SIZES) / _COARSER:
        template, to_board = _template(float(px_per_m))
        if (np.array(template.shape) >= small.shape).any():
            break
        likeness = cv2.matchTemplate(small, template, cv2.TM_CCOEFF_NORMED)
        _, best, _, (left, top) = cv2.minMaxLoc(likeness)
        shift = np.array([[1, 0, left], [0, 1, top], [0, 0, 1]])
        full = np.array([[_COARSER, 0, _HALF], [0, _COARSER, _HALF], [0, 0, 1]])
        places.append((best, full @ shift @ np.linalg.inv(to_board)))
    places.sort(key=lambda place: -place[0])
    return [place for _, place in places[:_TRIED]]


def _by_markers(grey: Picture) -> list[FloatArray]:
    """(3, 3) board metres to picture px without perspective, one for each marker read."""
    board = charuco_board()
    detector = cv2.aruco.ArucoDetector(board.getDictionary(), _marker_rules())
    large = cv2.resize(grey, None, fx=_ENLARGED, fy=_ENLARGED, interpolation=cv2.INTER_CUBIC)
    corners, names, _ = detector.detectMarkers(large)
    printed = zip(board.getIds(), board.getObjPoints(), strict=True)
    at = {int(name): np.asarray(corners_m)[:, :2] for name, corners_m in printed}
    return [
        _affine(at[int(name)], (np.reshape(c, (4, 2)) + 0.5) / _ENLARGED - 0.5)
        for c, name in zip(corners, () if names is None else names.ravel(), strict=True)
        if int(name) in at
    ]


def _affine(board_m: FloatArray, seen_px: FloatArray) -> FloatArray:
    """The (3, 3) affine map that takes the one nearest to the other."""
    rows = np.column_stack([board_m, np.ones(len(board_m))])
    solution = np.linalg.lstsq(rows, seen_px, rcond=None)[0]
    return np.vstack([solution.T, [0.0, 0.0, 1.0]])


def _marker_rules() -> cv2.aruco.DetectorParameters:
    rules = cv2.aruco.DetectorParameters()
    rules.minMarkerPerimeterRate = _SMALLEST_PERIMETER_SHARE
    return rules


def _fitted(grey: Picture, guess: FloatArray) -> BoardSeen | None:
    """The board where its print fits the picture best, near a guess.

    Evangelidis and Psarakis 2008 (IEEE TPAMI 30:1858), as OpenCV has it: first shifted,
    turned and stretched, then in perspective.
    """
    middle = _through(guess, np.array([[WIDTH_M / 2, HEIGHT_M / 2]]))[0]
    corners = _through(guess, board_corners_m())
    px_per_m = float(np.linalg.norm(corners[3] - corners[0])) / HEIGHT_M
    if not 50 < px_per_m < 5000 or (middle < 0).any() or (middle >= grey.shape[::-1]).any():
        return None
    template, to_board = _template(_FINER * px_per_m, _BLUR_PX * _FINER)
    try:
        likeness, warp = _registered(template, grey, guess @ to_board)
    except cv2.error:  # the fit ran out of the picture
        return None
    placed = warp @ np.linalg.inv(to_board)
    return BoardSeen(_through(placed, board_corners_m()), likeness)


def _registered(template: Picture, grey: Picture, guess: FloatArray) -> tuple[float, FloatArray]:
    """Likeness, and (3, 3) template px to picture px; raises cv2.error if it finds none."""
    stop = (cv2.TERM_CRITERIA_EPS | cv2.TERM_CRITERIA_COUNT, _ROUNDS, _CLOSE_ENOUGH)
    everywhere = np.full(grey.shape, 255, np.uint8)
    start = np.ascontiguousarray(guess[:2], dtype=np.float32)
    _, flat = cv2.findTransformECC(template, grey, start, cv2.MOTION_AFFINE, stop, everywhere, 3)
    deep = np.vstack([np.asarray(flat), [0, 0, 1]]).astype(np.float32)
    likeness, warp = cv2.findTransformECC(
        template, grey, deep, cv2.MOTION_HOMOGRAPHY, stop, everywhere, 3
    )
    return float(likeness), np.asarray(warp, dtype=np.float64)


def board_corners_m() -> FloatArray:
    """(4, 2) the chessboard's outer corners, metres right and down from the first of them."""
    return np.array([[0, 0], [WIDTH_M, 0], [WIDTH_M, HEIGHT_M], [0, HEIGHT_M]])


def _template(px_per_m: float, blur_px: float = _BLUR_PX) -> tuple[Picture, FloatArray]:
    """The print with a white rim as a camera would blur it, and (3, 3) its px to metres."""
    rim = round(_RIM_M * _PRINT_PX_PER_M)
    page = cv2.copyMakeBorder(
        board_picture(_PRINT_PX_PER_M), rim, rim, rim, rim, cv2.BORDER_CONSTANT, value=(255,)
    )
    shape = np.array(page.shape[::-1])
    size = np.maximum(np.round(shape / _PRINT_PX_PER_M * px_per_m), 8).astype(int)
    small = cv2.resize(page, (int(size[0]), int(size[1])), interpolation=cv2.INTER_AREA)
    across, up = shape / _PRINT_PX_PER_M / size
    to_board = np.array([[across, 0, 0.5 * across - _RIM_M], [0, up, 0.5 * up - _RIM_M], [0, 0, 1]])
    blurred = cv2.GaussianBlur(small, (0, 0), blur_px)
    return np.asarray(blurred, dtype=np.uint8), to_board


def _through(homography: FloatArray, points: FloatArray) -> FloatArray:
    seen = np.column_stack([points, np.ones(len(points))]) @ homography.T
    return np.asarray(seen[:, :2] / seen[:, 2:])
