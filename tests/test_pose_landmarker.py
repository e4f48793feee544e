"""The pose model itself, on rendered people whose joints are known."""

from collections.abc import Iterator

import cv2
import numpy as np
import pytest

from baycue.capture.frame import Frame, Picture
from baycue.errors import BaycueError
from baycue.pose.bystanders import count_people
from baycue.pose.estimator import PoseEstimator
from baycue.pose.framing import BodyPart, parts_cut_off
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.model_file import MODEL_SHA256, checked
from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.pose.presence import body_height_px, plausible
from baycue.pose.video_model import bodies_in, newest_of_running_mean
from tests.standing_golfer import Posed, empty_bay, standing_golfer

SIZE = (1280, 720)
STILL_FRAMES = 5


@pytest.fixture
def estimator() -> Iterator[PoseEstimator]:
    with MediaPipePose() as pose:
        yield pose


def pose_of(estimator: PoseEstimator, posed: Posed, index: int = 0) -> Pose:
    pose = estimator.estimate(posed.frame(index))
    assert pose is not None
    return pose


def off_by_px(pose: Pose, landmark: Landmark, truth: FloatArray) -> float:
    return float(np.linalg.norm(pose.pixel(landmark) - truth))


def with_second_person(share: float) -> Frame:
    """The golfer, and the golfer's own picture ``share`` as large beside them."""
    picture = standing_golfer().picture.copy()
    small: Picture = np.asarray(
        cv2.resize(picture[100:, 440:840], None, fx=share, fy=share), dtype=np.uint8
    )
    height, width = small.shape[:2]
    picture[680 - height : 680, 20 : 20 + width] = small
    return Frame(0, 0, picture)


def test_joints_are_found_where_they_are(estimator: PoseEstimator) -> None:
    """Within 4 % of body height; ankles 30 to 50 mm off are usual (Needham et al. 2021)."""
    golfer = standing_golfer()
    pose = pose_of(estimator, golfer)
    joints = {
        Landmark.LEFT_WRIST: "hand_l",
        Landmark.RIGHT_WRIST: "hand_r",
        Landmark.LEFT_KNEE: "calf_l",
        Landmark.RIGHT_KNEE: "calf_r",
        Landmark.LEFT_ANKLE: "foot_l",
        Landmark.RIGHT_ANKLE: "foot_r",
    }
    for landmark, bone in joints.items():
        assert off_by_px(pose, landmark, golfer.joints[bone]) < 0.04 * body_height_px(pose)


def test_the_pose_carries_its_frame_and_shapes(estimator: PoseEstimator) -> None:
    pose = pose_of(estimator, standing_golfer(), index=3)
    assert (pose.frame_index, pose.stamp_ns) == (3, 99_999_999)
    assert (pose.pixels.shape, pose.world_m.shape, pose.visibility.shape) == (
        (33, 2),
        (33, 3),
        (33,),
    )
    assert pose.pixels.dtype == np.float64


def test_a_fast_hand_does_not_lag(estimator: PoseEstimator) -> None:
    """Against the same picture looked at alone, which has no past to lag behind.

    Told the true time, MediaPipe's filter leaves the hand 5 to 7 px behind at 30 frames a
    second, 8 to 10 at 60 and 13 to 16 at 120; told our time, at most 3.8 (measured).
    """
    for index in range(STILL_FRAMES):
        pose_of(estimator, standing_golfer(), index)
    for step in range(1, 5):
        raised = standing_golfer(arm_deg=8.0 * step)
        pose = pose_of(estimator, raised, STILL_FRAMES + step)
        alone = bodies_in([raised.frame()])[0][0]
        assert off_by_px(pose, Landmark.LEFT_WRIST, alone.pixel(Landmark.LEFT_WRIST)) < 4.5


def test_visibility_is_the_frame_s_own(estimator: PoseEstimator) -> None:
    """Legs hidden at once are low at once, as in a picture looked at alone."""
    golfer = standing_golfer()
    hidden = golfer.picture.copy()
    hidden[480:] = hidden[480, 0]
    for index in range(STILL_FRAMES):
        pose_of(estimator, golfer, index)
    pose = pose_of(estimator, Posed(hidden, {}), STILL_FRAMES)
    alone = bodies_in([Frame(0, 0, hidden)])[0][0]
    assert alone.visibility[Landmark.LEFT_ANKLE] < 0.4
    assert abs(pose.visibility - alone.visibility)[Landmark.LEFT_ANKLE] < 0.2


def test_running_mean_is_undone() -> None:
    values = np.array([[0.9], [0.2], [0.7]])
    means = [values[0]]
    for value in values[1:]:
        means.append(0.1 * value + 0.9 * means[-1])
    assert newest_of_running_mean(means[0], None, 0.1) == values[0]
    for before, mean, value in zip(means, means[1:], values[1:], strict=False):
        assert newest_of_running_mean(mean, before, 0.1) == pytest.approx(value)


def test_nobody_in_an_empty_bay(estimator: PoseEstimator) -> None:
    pose = estimator.estimate(Frame(0, 0, empty_bay()))
    assert pose is None or not plausible(pose, SIZE)


def test_the_golfer_is_plausible_and_whole(estimator: PoseEstimator) -> None:
    pose = pose_of(estimator, standing_golfer())
    assert plausible(pose, SIZE)
    assert parts_cut_off(pose, *SIZE) == frozenset()


def test_a_camera_too_near_cuts_off_the_feet(estimator: PoseEstimator) -> None:
    pose = pose_of(estimator, standing_golfer(distance_m=2.6, height_m=1.4))
    assert BodyPart.FEET in parts_cut_off(pose, *SIZE)


@pytest.mark.parametrize("share", [0.95, 0.6])
def test_a_second_person_is_counted(share: float) -> None:
    assert count_people([with_second_person(share)]) == [2]


def test_one_person_is_one_and_an_empty_bay_none() -> None:
    assert count_people([standing_golfer().frame(), Frame(1, 1, empty_bay())]) == [1, 0]


def test_starting_and_stopping_say_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    with MediaPipePose() as estimator:
        estimator.estimate(standing_golfer().frame(0))
        estimator.estimate(standing_golfer().frame(1))
    assert capfd.readouterr() == ("", "")


def test_closing_twice_is_harmless() -> None:
    estimator = MediaPipePose()
    estimator.close()
    estimator.close()


def test_another_model_is_refused() -> None:
    with pytest.raises(BaycueError, match=rf"not the pose model.*{MODEL_SHA256[:12]}"):
        checked(b"another model", "model.task")
