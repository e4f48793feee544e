"""The printed page as a pinhole sees it, drawn by OpenCV (``projectPoints``, ``warpPerspective``).

Nothing of the synthetic bay's own drawing is used.
"""

from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.bay.board import HEIGHT_M, WIDTH_M
from baycue.bay.board_page import PX_PER_MM, Paper, board_page

FloatArray = NDArray[np.float64]
_FINER = 4
_TOP_M = 0.008


@dataclass(frozen=True, slots=True)
class BoardView:
    """Where the A4 page stands before a camera with a picture of 640 x 480 px.

    ``camera_yaw_deg``: the camera is turned so far to its right of looking square at it.
    """

    px_per_m: float = 260.0
    camera_yaw_deg: float = 0.0
    slant_deg: float = 0.0
    focal_px: float = 900.0
    aside_px: float = 60.0
    noise: float = 2.0
    white: float = 200.0
    ink: float = 35.0

    @property
    def size_px(self) -> tuple[int, int]:
        """Width and height."""
        return 640, 480

    def seen_px(self, points_m: FloatArray) -> FloatArray:
        """(N, 2) px of (N, 2) points right and down from the board's middle, on the page."""
        yaw, slant = np.radians(self.camera_yaw_deg), np.radians(self.slant_deg)
        turn = cv2.Rodrigues(np.array([0.0, -yaw, 0.0]))[0]
        lean = cv2.Rodrigues(np.array([0.0, 0.0, -slant]))[0]
        inner = np.array([[self.focal_px, 0, 319.5], [0, self.focal_px, 239.5], [0, 0, 1]])
        away = self.focal_px / self.px_per_m
        place = np.array([self.aside_px / self.px_per_m, 0.0, away])
        flat = np.column_stack([points_m, np.zeros(len(points_m))])
        seen, _ = cv2.projectPoints(flat, cv2.Rodrigues(turn @ lean)[0], place, inner, None)
        return np.asarray(seen.reshape(-1, 2), dtype=np.float64)

    @property
    def corners_px(self) -> FloatArray:
        """(4, 2) the chessboard's true outer corners."""
        x, y = WIDTH_M / 2, HEIGHT_M / 2
        return self.seen_px(np.array([[-x, -y], [x, -y], [x, y], [-x, y]]))


def drawn_board(view: BoardView, seed: int = 1) -> NDArray[np.uint8]:
    """The picture, (480, 640, 3)."""
    page = board_page(Paper.A4).astype(np.float32)
    shrink = min(1.0, _FINER * view.px_per_m / (1000 * PX_PER_MM))
    small = cv2.resize(page, None, fx=shrink, fy=shrink, interpolation=cv2.INTER_AREA)
    lit = view.ink + small / 255 * (view.white - view.ink)
    half_m, top_m = Paper.A4.width_mm / 2000, HEIGHT_M / 2 + _TOP_M
    foot_m = Paper.A4.height_mm / 1000 - top_m
    page_m = np.array([[-half_m, -top_m], [half_m, -top_m], [half_m, foot_m], [-half_m, foot_m]])
    height, width = lit.shape
    edges = np.array([[0, 0], [width, 0], [width, height], [0, height]]) - 0.5
    fine = (view.seen_px(page_m) + 0.5) * _FINER - 0.5
    warp = cv2.getPerspectiveTransform(edges.astype(np.float32), fine.astype(np.float32))
    size = view.size_px
    drawn = cv2.warpPerspective(
        lit, warp, (size[0] * _FINER, size[1] * _FINER), borderValue=(100.0,)
    )
    picture = cv2.GaussianBlur(cv2.resize(drawn, size, interpolation=cv2.INTER_AREA), (0, 0), 0.7)
    grain = np.random.default_rng(seed).normal(0, view.noise, picture.shape)
    grey = np.clip(picture + grain, 0, 255).astype(np.uint8)
    return np.asarray(np.dstack([grey] * 3), dtype=np.uint8)
