"""The pinhole camera against OpenCV's own, and which way round things appear."""

import cv2
import numpy as np
import pytest

from baycue.plan.stance import Handedness, View
from baycue.synthetic.camera import Camera

CHEST = np.array([[0.0, 1.1, 0.0]])
CAMERAS = [
    Camera(),
    Camera(View.DOWN_THE_LINE, aside_m=0.4, tilt_deg=6),
    Camera(View.DOWN_THE_LINE, yaw_deg=-8, handedness=Handedness.LEFT),
    Camera(width_px=640, height_px=480, yaw_deg=12, tilt_deg=-5, roll_deg=4, aside_m=-0.3),
]


@pytest.mark.parametrize("camera", CAMERAS)
def test_projection_agrees_with_opencv(camera: Camera) -> None:
    points = np.random.default_rng(3).uniform(-1, 1, (50, 3)) + CHEST
    turn, _ = cv2.Rodrigues(camera.rotation)
    shift = -camera.rotation @ camera.position_m
    expected, _ = cv2.projectPoints(points, turn, shift, camera.intrinsics, np.zeros(4))
    pixels, depth = camera.project(points)
    assert np.abs(pixels - expected[:, 0]).max() < 1e-6
    assert (depth > 0).all()


@pytest.mark.parametrize("camera", CAMERAS)
def test_rotation_is_proper(camera: Camera) -> None:
    assert np.allclose(camera.rotation @ camera.rotation.T, np.eye(3))
    assert np.linalg.det(camera.rotation) == pytest.approx(1.0)


def test_field_of_view_spans_the_width() -> None:
    camera = Camera(distance_m=2.0, height_m=1.0, field_of_view_deg=90)
    pixels, depth = camera.project(np.array([[-2.0, 1, 0], [2.0, 1, 0]]))
    assert depth == pytest.approx([2.0, 2.0])
    assert pixels[:, 0] == pytest.approx([-0.5, 1279.5])
    assert pixels[:, 1] == pytest.approx([359.5, 359.5])


def pixel(camera: Camera, x: float, y: float, z: float) -> tuple[float, float]:
    pixels, _ = camera.project(np.array([[x, y, z]]))
    return float(pixels[0, 0]), float(pixels[0, 1])


def test_face_on_shows_the_target_side_on_the_right() -> None:
    assert pixel(Camera(), 0.5, 1, 0)[0] > pixel(Camera(), 0, 1, 0)[0]


def test_down_the_line_shows_the_ball_right_of_a_right_hander_left_of_a_left_hander() -> None:
    right = Camera(View.DOWN_THE_LINE)
    left = Camera(View.DOWN_THE_LINE, handedness=Handedness.LEFT)
    assert pixel(right, 0, 0, 0.8)[0] > pixel(right, 0, 0, 0)[0]
    assert pixel(left, 0, 0, 0.8)[0] < pixel(left, 0, 0, 0)[0]


def test_higher_points_are_higher_in_the_picture() -> None:
    assert pixel(Camera(), 0, 1.5, 0)[1] < pixel(Camera(), 0, 0.5, 0)[1]


def test_yaw_tilt_roll_and_aside_turn_as_told() -> None:
    plain = pixel(Camera(), 0.5, 1.1, 0)
    assert pixel(Camera(yaw_deg=10), 0.5, 1.1, 0)[0] < plain[0]
    assert pixel(Camera(tilt_deg=10), 0.5, 1.1, 0)[1] < plain[1]
    assert pixel(Camera(roll_deg=10), 0.5, 1.1, 0)[1] < plain[1]
    assert pixel(Camera(aside_m=0.2), 0.5, 1.1, 0)[0] < plain[0]
