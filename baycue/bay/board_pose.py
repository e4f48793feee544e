"""Where a board stands before the camera, by how it looks."""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.bay.board import HEIGHT_M, WIDTH_M, BoardSeen

FloatArray = NDArray[np.float64]

CORNER_SIGMA_PX = 0.1
STOOD_SQUARE_SIGMA_DEG = 3.0
"""How squarely people stand a board to the target line, by eye; common practice, no source."""
_FOCAL_SIGMA_SHARE = 0.1


@dataclass(frozen=True, slots=True)
class BoardPose:
    """The board before the camera, told by its corners.

    ``px_per_m``: at the board's middle, of a length square to the line of sight's axis.
    ``px_per_m_share``: its one-sigma as a share, of the fit alone.
    ``yaw_deg``: how far the camera is turned to the picture's right of looking square at the
    board; ``yaw_sigma_deg`` holds how squarely it was stood.  ``slant_deg``: as in
    ``bay.level``, + if the board's foot is to the right of its head.
    """

    px_per_m: float
    px_per_m_share: float
    yaw_deg: float
    yaw_sigma_deg: float
    slant_deg: float


def board_pose(
    seen: BoardSeen, focal_px: float, size_px: tuple[int, int], printed_share: float = 1.0
) -> BoardPose:
    """The pose from the corners (infinitesimal plane-based: Collins and Bartoli 2014, as OpenCV
    has it).

    ``printed_share``: how large it was printed; 1 is true to size.
    """
    base = _solved(seen.corners_px, focal_px, size_px)
    shaken = np.array([_solved(shaken, focal_px, size_px) for shaken in _shaken(seen.corners_px)])
    scale, yaw, slant = base
    spread = np.sqrt(((shaken - base) ** 2).sum(axis=0))
    yaw_sigma = np.linalg.norm([spread[1], STOOD_SQUARE_SIGMA_DEG, _FOCAL_SIGMA_SHARE * yaw])
    return BoardPose(
        px_per_m=float(scale / printed_share),
        px_per_m_share=float(spread[0] / scale),
        yaw_deg=float(yaw),
        yaw_sigma_deg=float(yaw_sigma),
        slant_deg=float(slant),
    )


def _shaken(corners_px: FloatArray) -> Sequence[FloatArray]:
    """The corners with each of their eight figures off by one sigma in turn."""
    steps = CORNER_SIGMA_PX * np.eye(8).reshape(8, 4, 2)
    return [corners_px + step for step in steps]


def _solved(corners_px: FloatArray, focal_px: float, size_px: tuple[int, int]) -> FloatArray:
    """(3,) px per metre, yaw and slant, deg."""
    middle = np.array([(size_px[0] - 1) / 2, (size_px[1] - 1) / 2])
    lens = np.array([[focal_px, 0, middle[0]], [0, focal_px, middle[1]], [0, 0, 1]])
    across = -1.0 if _is_mirrored(corners_px) else 1.0
    corners_m = np.array([[-1, -1, 0], [1, -1, 0], [1, 1, 0], [-1, 1, 0]]) * (
        np.array([across * WIDTH_M, HEIGHT_M, 0.0]) / 2
    )
    _, turns, shifts, _ = cv2.solvePnPGeneric(
        corners_m, corners_px, lens, None, flags=cv2.SOLVEPNP_IPPE
    )
    turn = cv2.Rodrigues(turns[0])[0]
    # A mirrored picture is the true picture of a mirrored bay, and is told of as such.
    yaw = np.degrees(np.arctan2(-turn[0, 2], turn[2, 2]))
    slant = np.degrees(np.arctan2(turn[0, 1], turn[1, 1]))
    return np.array([focal_px / float(np.ravel(shifts[0])[2]), yaw, slant])


def _is_mirrored(corners_px: FloatArray) -> bool:
    across, down = corners_px[1] - corners_px[0], corners_px[3] - corners_px[0]
    return bool(across[0] * down[1] - across[1] * down[0] < 0)
