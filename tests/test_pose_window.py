import numpy as np
import pytest

from baycue.capture.frame import Frame
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Landmark
from baycue.pose.presence import plausible
from baycue.pose.window import middle_square, whole
from tests.standing_golfer import standing_golfer


def frame_of(width_px: int, height_px: int) -> Frame:
    across = np.tile(np.arange(width_px, dtype=np.uint16) % 251, (height_px, 1))
    return Frame(0, 0, np.repeat(across[:, :, None], 3, axis=2).astype(np.uint8))


def test_the_middle_square_says_where_it_was_cut() -> None:
    frame = frame_of(1280, 720)
    window = middle_square(frame)
    assert window.picture.shape == (720, 720, 3)
    assert (window.picture == frame.picture_bgr[:, window.left_px : window.left_px + 720]).all()
    assert whole(frame).picture is frame.picture_bgr


@pytest.mark.parametrize(("width_px", "height_px"), [(480, 640), (600, 600)])
def test_an_upright_picture_is_not_cut(width_px: int, height_px: int) -> None:
    window = middle_square(frame_of(width_px, height_px))
    assert (window.picture.shape, window.left_px) == ((height_px, width_px, 3), 0)


def test_a_golfer_too_small_for_the_whole_picture_is_found_in_its_middle() -> None:
    """And where the whole picture's coordinates say, not the square's."""
    golfer = standing_golfer(distance_m=12.0)
    with MediaPipePose() as estimator:
        poses = [estimator.estimate(golfer.frame(index)) for index in range(6)]
    found = [p for p in poses if p is not None and plausible(p, (1280, 720))]
    assert found
    ankle = found[-1].pixel(Landmark.LEFT_ANKLE)
    assert np.linalg.norm(ankle - golfer.joints["foot_l"]) < 15


def test_tracking_lets_go_of_what_is_no_person() -> None:
    """A body that turns into rubbish is dropped, and the next real one is found at once."""
    golfer = standing_golfer()
    upside_down = Frame(0, 0, np.ascontiguousarray(golfer.picture[::-1]))
    with MediaPipePose() as estimator:
        for _ in range(12):
            estimator.estimate(upside_down)
        poses = [estimator.estimate(golfer.frame(index)) for index in range(4)]
    assert any(p is not None and plausible(p, (1280, 720)) for p in poses)
