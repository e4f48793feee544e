"""Board and stick in the synthetic bay, checked by OpenCV's own projection."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from baycue.bay.board import HEIGHT_M, WIDTH_M, find_board
from baycue.plan.stance import Handedness
from baycue.synthetic.backdrop import backdrop
from baycue.synthetic.bay import BAYS, PLAIN
from baycue.synthetic.camera import Camera
from baycue.synthetic.light import encoded
from baycue.synthetic.rulers import LyingStick, StandingBoard

CAMERA = Camera(
    width_px=640, height_px=480, distance_m=2.6, height_m=1.0, tilt_deg=12.0, field_of_view_deg=50.0
)
PAGE_M, TOP_M = 0.297, 0.008


def projected(points_m: np.ndarray, camera: Camera) -> np.ndarray:
    inner = camera.intrinsics
    turn, _ = cv2.Rodrigues(camera.rotation)
    seen, _ = cv2.projectPoints(points_m, turn, -camera.rotation @ camera.position_m, inner, None)
    return np.asarray(seen.reshape(-1, 2))


@pytest.mark.parametrize("handedness", Handedness)
@pytest.mark.parametrize("yaw_deg", [0.0, 6.0])
def test_the_board_stands_where_it_is_put(yaw_deg: float, handedness: Handedness) -> None:
    """Never mirrored itself, also where a left-hander's bay is the mirror image."""
    camera = replace(CAMERA, yaw_deg=yaw_deg, handedness=handedness)
    bay = replace(PLAIN, board=StandingBoard((0.3, 0.0, 0.0)))
    seen = find_board(encoded(backdrop(bay, camera, handedness)))
    assert seen is not None
    x = 0.3 if handedness is Handedness.RIGHT else -0.3
    left, right = x - WIDTH_M / 2, x + WIDTH_M / 2
    head = PAGE_M - TOP_M
    foot = head - HEIGHT_M
    corners = np.array([[left, head, 0], [right, head, 0], [right, foot, 0], [left, foot, 0]])
    assert seen.corners_px == pytest.approx(projected(corners, camera), abs=0.4)


def test_the_stick_lies_where_it_is_put_and_nothing_else_changes() -> None:
    stick = LyingStick((0.0, 0.0, 0.3))
    empty = backdrop(PLAIN, CAMERA)
    change = np.abs(backdrop(replace(PLAIN, stick=stick), CAMERA) - empty).sum(axis=2)
    rows, columns = np.nonzero(change > 0.02)
    ends = projected(np.array([[-0.5, 0, 0.3], [0.5, 0, 0.3]]), CAMERA)
    assert [columns.min(), columns.max()] == pytest.approx(ends[:, 0], abs=3)
    assert [rows.min(), rows.max()] == pytest.approx([ends[0, 1]] * 2, abs=5)


def test_no_bay_has_a_ruler_unless_asked() -> None:
    assert all(bay.board is None and bay.stick is None for bay in BAYS.values())
