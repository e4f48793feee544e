"""The stick, drawn by ``cv2.projectPoints`` and area-averaged polygons."""

from dataclasses import dataclass

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.bay.level import Level
from baycue.bay.stick import StickPlace, StickSeen, find_stick
from baycue.bay.stick_pose import stick_pose

FloatArray = NDArray[np.float64]
FOCAL_PX, SIZE_PX = 900.0, (1280, 720)
LEVEL = Level(0.0, 0.3)
PLACE = StickPlace((10, 20, 310, 100), 120.0, 18.0)


@dataclass(frozen=True, slots=True)
class Mat:
    """A picture of 320 x 120 px, the stick's true ends in it, and what else lies there."""

    left_px: tuple[float, float] = (100.3, 60.2)
    right_px: tuple[float, float] = (219.6, 63.9)
    thick_px: float = 1.4
    contrast: float = 40.0
    mat_edge: bool = False
    shoes: bool = False


def drawn(mat: Mat, seed: int = 1) -> list[NDArray[np.uint8]]:
    """Several noisy pictures of it."""
    finer = 16
    ends = np.array([mat.left_px, mat.right_px])
    along = (ends[1] - ends[0]) / np.linalg.norm(ends[1] - ends[0])
    across = mat.thick_px / 2 * np.array([-along[1], along[0]])
    corners = np.array([ends[0] - across, ends[1] - across, ends[1] + across, ends[0] + across])
    fine = np.zeros((120 * finer, 320 * finer), np.float32)
    cv2.fillConvexPoly(fine, np.rint((corners + 0.5) * finer - 0.5).astype(np.int32), (1.0,))
    cover = cv2.resize(fine, (320, 120), interpolation=cv2.INTER_AREA)
    grey = 80 + mat.contrast * cover
    if mat.mat_edge:
        grey[:40] += 50
    if mat.shoes:
        for middle in (130, 190):
            cv2.circle(grey, (middle, 54), 8, (30.0,), -1)
    rng = np.random.default_rng(seed)
    return [np.clip(grey + rng.normal(0, 2, grey.shape), 0, 255).astype(np.uint8) for _ in range(9)]


@pytest.mark.parametrize("down_px", [-12.0, -3.0, 0.0, 4.0, 15.0])
@pytest.mark.parametrize("contrast", [25.0, 60.0, 120.0])
def test_the_ends_are_found_to_half_a_pixel(down_px: float, contrast: float) -> None:
    mat = Mat((100.3, 60.2), (219.6, 60.2 + down_px), contrast=contrast)
    seen = find_stick(drawn(mat), PLACE)
    assert seen is not None
    assert np.abs(seen.ends_px - [mat.left_px, mat.right_px]).max() < 0.6


def test_shoes_before_it_do_not_cut_it_short() -> None:
    mat = Mat(shoes=True)
    seen = find_stick(drawn(mat), PLACE)
    assert seen is not None
    assert np.abs(seen.ends_px - [mat.left_px, mat.right_px]).max() < 0.8


def test_the_stick_is_told_from_the_mats_edge() -> None:
    seen = find_stick(drawn(Mat(mat_edge=True)), PLACE)
    assert seen is not None
    assert seen.ends_px[0] == pytest.approx([100.3, 60.2], abs=0.6)
    assert find_stick(drawn(Mat(mat_edge=True, contrast=0.0)), PLACE) is None


@pytest.mark.parametrize(
    "mat",
    [
        Mat(contrast=0.0),
        Mat(contrast=-40.0),
        Mat(right_px=(180.0, 62.0)),
        Mat(left_px=(60.0, 60.0), right_px=(250.0, 62.0)),
        Mat(right_px=(209.0, 99.0)),
    ],
    ids=["nothing", "dark", "too short", "too long", "askew"],
)
def test_what_is_no_such_stick_is_not_found(mat: Mat) -> None:
    assert find_stick(drawn(mat), PLACE) is None


def test_a_place_smaller_than_the_stick_holds_none() -> None:
    assert find_stick(drawn(Mat()), StickPlace((50, 20, 150, 100), 120.0, 18.0)) is None


def seen_from(yaw_deg: float, distance_m: float, height_m: float, aside_m: float) -> StickSeen:
    """A stick of a metre on the ground, by OpenCV; the camera turned to its right by the yaw."""
    yaw = np.radians(yaw_deg)
    rows = np.array([[np.cos(yaw), 0, np.sin(yaw)], [0, -1, 0], [np.sin(yaw), 0, -np.cos(yaw)]])
    ends_m = np.array([[aside_m - 0.5, 0.0, 0.0], [aside_m + 0.5, 0.0, 0.0]])
    eye = np.array([0.0, height_m, distance_m])
    inner = np.array([[FOCAL_PX, 0, 640], [0, FOCAL_PX, 360], [0, 0, 1]])
    seen, _ = cv2.projectPoints(ends_m, cv2.Rodrigues(rows)[0], -rows @ eye, inner, None)
    return StickSeen(np.asarray(seen.reshape(2, 2), dtype=np.float64), 50.0)


@pytest.mark.parametrize("aside_m", [-0.6, 0.0, 0.6])
@pytest.mark.parametrize("yaw_deg", [-8.0, -3.0, 0.0, 5.0])
def test_distance_and_yaw_lie_within_their_sigmas(yaw_deg: float, aside_m: float) -> None:
    """Within two: the yaw is drawn to 0 by how people set cameras up."""
    pose = stick_pose(seen_from(yaw_deg, 3.4, 1.1, aside_m), 1.0, FOCAL_PX, SIZE_PX, LEVEL)
    assert abs(pose.yaw_deg - yaw_deg) < 2 * pose.yaw_sigma_deg
    assert abs(pose.distance_m / 3.4 - 1) < 2 * pose.distance_share
    assert np.sign(round(pose.yaw_deg)) == np.sign(yaw_deg)
    assert pose.yaw_sigma_deg < 3.5


def test_square_on_the_distance_is_that_of_similar_triangles() -> None:
    pose = stick_pose(seen_from(0.0, 3.0, 1.0, 0.0), 1.0, FOCAL_PX, SIZE_PX, LEVEL)
    assert pose.distance_m == pytest.approx(3.0)


def test_a_low_camera_and_an_unsure_level_tell_little_of_the_yaw() -> None:
    sure = stick_pose(seen_from(5.0, 3.0, 1.3, 0.0), 1.0, FOCAL_PX, SIZE_PX, LEVEL)
    low = stick_pose(seen_from(5.0, 3.0, 0.4, 0.0), 1.0, FOCAL_PX, SIZE_PX, LEVEL)
    unsure = stick_pose(seen_from(5.0, 3.0, 1.3, 0.0), 1.0, FOCAL_PX, SIZE_PX, Level(0.0, 1.5))
    assert sure.yaw_sigma_deg < unsure.yaw_sigma_deg
    assert sure.yaw_sigma_deg < low.yaw_sigma_deg <= 5.0
