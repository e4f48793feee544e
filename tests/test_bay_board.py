"""The board found and measured; OpenCV's own board and projection are the reference."""

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.bay.board import (
    HEIGHT_M,
    MARKER_M,
    SQUARE_M,
    WIDTH_M,
    BoardSeen,
    board_corners_m,
    board_picture,
    charuco_board,
    find_board,
)
from baycue.bay.board_pose import STOOD_SQUARE_SIGMA_DEG, board_pose
from baycue.bay.board_watch import BoardWatch
from tests.drawn_board import BoardView, drawn_board


def test_the_board_is_as_opencv_lays_it_out() -> None:
    board = charuco_board()
    assert board.getSquareLength() == pytest.approx(SQUARE_M)
    assert board.getMarkerLength() == pytest.approx(MARKER_M)
    assert np.ravel(board.getRightBottomCorner())[:2] == pytest.approx([WIDTH_M, HEIGHT_M])
    inner = np.asarray(board.getChessboardCorners())[:, :2]
    assert inner == pytest.approx(np.array([[SQUARE_M, SQUARE_M], [SQUARE_M, 2 * SQUARE_M]]))
    assert board_corners_m()[2] == pytest.approx([WIDTH_M, HEIGHT_M])


def test_opencvs_own_detector_reads_the_printed_board() -> None:
    """Its chessboard corners are where the squares meet, to half a pixel of 2000 a metre."""
    page = cv2.copyMakeBorder(
        board_picture(2000), 60, 60, 60, 60, cv2.BORDER_CONSTANT, value=(255,)
    )
    corners, names, _, markers = cv2.aruco.CharucoDetector(charuco_board()).detectBoard(page)
    assert sorted(np.ravel(markers)) == [0, 1, 2]
    names_found = [int(name) for name in np.ravel(names)]
    found = dict(zip(names_found, np.reshape(corners, (-1, 2)), strict=True))
    for name, place_m in enumerate(np.asarray(charuco_board().getChessboardCorners())[:, :2]):
        assert found[name] == pytest.approx(place_m * 2000 + 59.5, abs=0.6)


@pytest.mark.parametrize("px_per_m", [160.0, 220.0, 300.0, 420.0])
@pytest.mark.parametrize("yaw_deg", [-9.0, 0.0, 6.0])
def test_corners_are_found_to_a_part_of_a_pixel(px_per_m: float, yaw_deg: float) -> None:
    view = BoardView(px_per_m, yaw_deg, slant_deg=2.0)
    seen = find_board(drawn_board(view))
    assert seen is not None
    assert np.abs(seen.corners_px - view.corners_px).max() < 0.35
    assert seen.likeness > 0.9


def test_a_mirrored_picture_shows_the_board_in_its_mirror_image() -> None:
    view = BoardView(camera_yaw_deg=5.0)
    picture = np.ascontiguousarray(drawn_board(view)[:, ::-1])
    seen = find_board(picture, mirrored=True)
    assert seen is not None
    assert seen.corners_px == pytest.approx(view.corners_px * [-1, 1] + [639, 0], abs=0.35)
    assert board_pose(seen, view.focal_px, view.size_px).yaw_deg == pytest.approx(-5.0, abs=1.5)


def test_a_dim_bay_is_light_enough() -> None:
    view = BoardView(white=70.0, ink=20.0)
    seen = find_board(drawn_board(view))
    assert seen is not None
    assert np.abs(seen.corners_px - view.corners_px).max() < 0.5


def plain_chessboard() -> NDArray[np.uint8]:
    """Squares as large as the board's, and no markers."""
    across, down = np.meshgrid(np.arange(640) // 21, np.arange(480) // 21)
    grey = np.where((across + down) % 2 == 0, 40, 200).astype(np.uint8)
    return np.asarray(np.dstack([grey] * 3), dtype=np.uint8)


def noise(seed: int) -> NDArray[np.uint8]:
    small = np.random.default_rng(seed).integers(0, 255, (60, 80, 3), dtype=np.uint8)
    return np.asarray(cv2.resize(small, (640, 480)), dtype=np.uint8)


@pytest.mark.parametrize(
    "picture",
    [plain_chessboard(), noise(1), noise(2), np.full((480, 640, 3), 90, np.uint8)],
    ids=["chessboard", "noise", "more noise", "nothing"],
)
def test_what_is_no_board_is_not_found(picture: NDArray[np.uint8]) -> None:
    assert find_board(picture) is None


@pytest.mark.parametrize("slant_deg", [-3.0, 2.0])
@pytest.mark.parametrize("yaw_deg", [-10.0, -4.0, 4.0, 10.0])
def test_the_pose_is_that_of_opencvs_projection(yaw_deg: float, slant_deg: float) -> None:
    view = BoardView(260.0, yaw_deg, slant_deg)
    pose = board_pose(BoardSeen(view.corners_px, 1.0), view.focal_px, view.size_px)
    assert pose.px_per_m == pytest.approx(260.0, rel=1e-3)
    assert pose.yaw_deg == pytest.approx(yaw_deg, abs=0.05)
    assert pose.slant_deg == pytest.approx(slant_deg, abs=0.05)


def test_how_squarely_it_was_stood_is_the_least_of_the_yaws_sigma() -> None:
    near, far = (
        board_pose(BoardSeen(view.corners_px, 1.0), view.focal_px, view.size_px)
        for view in (BoardView(500.0, 6.0), BoardView(150.0, 6.0))
    )
    assert STOOD_SQUARE_SIGMA_DEG <= near.yaw_sigma_deg < far.yaw_sigma_deg
    assert near.px_per_m_share < far.px_per_m_share < 0.02


def test_a_print_that_came_out_small_stands_nearer_than_it_looks() -> None:
    view = BoardView()
    seen = BoardSeen(view.corners_px, 1.0)
    true, small = (board_pose(seen, view.focal_px, view.size_px, share) for share in (1.0, 0.97))
    assert small.px_per_m == pytest.approx(true.px_per_m / 0.97)


def test_the_watch_keeps_the_likeliest_and_stops_when_it_has_seen_enough() -> None:
    picture, watch = drawn_board(BoardView()), BoardWatch()
    for second in range(5):
        watch = watch.after(second * 1_000_000_000, picture)
    assert watch.sightings == 3
    assert watch.best is not None
    assert watch.after(9_000_000_000, noise(1)) == watch


def test_the_watch_looks_now_and_then_only() -> None:
    nothing = np.full((480, 640, 3), 90, np.uint8)
    watch = BoardWatch().after(5, nothing)
    assert watch.after(100_000_000, drawn_board(BoardView())) is watch
    assert watch.after(1_100_000_000, drawn_board(BoardView())).sightings == 1


def test_the_watch_holds_up_no_frame_once_the_beginning_is_over() -> None:
    nothing = np.full((480, 640, 3), 90, np.uint8)
    watch = BoardWatch().after(0, nothing)
    assert watch.after(29_000_000_000, drawn_board(BoardView())).sightings == 1
    assert watch.after(31_000_000_000, drawn_board(BoardView())) is watch
