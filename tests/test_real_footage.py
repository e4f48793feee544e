"""Real people, not golfers, before the pose model, the presence gate and the segmentation.

Where the footage is from and under which licence: ``tests/real_footage.py``.
"""

import numpy as np
import pytest

from baycue.pose.pose import Landmark, Pose
from tests.real_footage import LAB, LEGS, FloatArray, lab_cameras, lab_views, met, watched

CLIPS = ("park.mp4", *LAB)


def lengths_m(points_m: FloatArray, first: Landmark, second: Landmark) -> FloatArray:
    """(frames,) distances in (frames, 33, 3) points."""
    return np.asarray(np.linalg.norm(points_m[:, first] - points_m[:, second], axis=1))


def spread(lengths: FloatArray) -> float:
    return float(lengths.std() / lengths.mean())


def height_px(pose: Pose, *landmarks: Landmark) -> float:
    return float(pose.pixels[list(landmarks), 1].mean())


@pytest.mark.parametrize("name", CLIPS)
def test_people_who_do_not_swing_make_no_swing(name: str) -> None:
    assert watched(name).swings == 0


def test_people_in_the_open_are_seen_though_small_backlit_and_upside_down_once() -> None:
    # Somebody shows whole in 225 of 230 frames (counted by eye); the gate needs 8 to open.
    assert np.mean(watched("park.mp4").golfer) > 0.85


@pytest.mark.parametrize("name", LAB)
def test_a_person_indoors_is_seen_without_a_gap_once_steady(name: str) -> None:
    golfer = watched(name).golfer
    assert all(golfer[golfer.index(True) :])
    assert golfer.index(True) < 0.5 * 60


@pytest.mark.parametrize("name", CLIPS)
def test_legs_are_the_right_way_up(name: str) -> None:
    for pose in watched(name).of_golfer:
        hips = height_px(pose, Landmark.LEFT_HIP, Landmark.RIGHT_HIP)
        knees = height_px(pose, Landmark.LEFT_KNEE, Landmark.RIGHT_KNEE)
        assert hips < knees < height_px(pose, Landmark.LEFT_ANKLE, Landmark.RIGHT_ANKLE)


@pytest.mark.parametrize("name", CLIPS)
def test_legs_keep_their_length_in_the_model_s_own_metres(name: str) -> None:
    world_m = np.array([pose.world_m for pose in watched(name).of_golfer])
    for hip, knee, ankle in LEGS.values():
        assert spread(lengths_m(world_m, hip, knee)) < 0.12
        assert spread(lengths_m(world_m, knee, ankle)) < 0.12


def test_legs_have_one_length_where_four_cameras_meet() -> None:
    points_m = np.array([met(lab_cameras(), views) for views in lab_views()])
    thighs, shanks = [], []
    for hip, knee, ankle in LEGS.values():
        thighs.append(lengths_m(points_m, hip, knee))
        shanks.append(lengths_m(points_m, knee, ankle))
    assert max(spread(bone) for bone in (*thighs, *shanks)) < 0.08
    # Thigh 0.245 and shank 0.246 of stature (Drillis and Contini 1966 as quoted by Winter 2009).
    ratio = np.mean(thighs) / np.mean(shanks)
    assert ratio == pytest.approx(0.245 / 0.246, rel=0.12)
    assert np.mean(thighs[0]) == pytest.approx(np.mean(thighs[1]), rel=0.1)


@pytest.mark.parametrize("side", LEGS)
def test_a_knee_stands_past_its_ankle_as_the_other_three_cameras_say(side: str) -> None:
    """Sideways in one picture, at the depth that the others give: the middle of the errors."""
    _, knee, ankle = LEGS[side]
    joints, cameras = [knee, ankle], lab_cameras()
    for number, camera in enumerate(cameras):
        others = [n for n in range(len(cameras)) if n != number]
        errors_m = []
        for views in lab_views():
            points_m = met(tuple(cameras[n] for n in others), views[others][:, joints])
            there = camera.before(points_m)
            here = views[number, joints, 0] * there[:, 2]
            errors_m.append((here[0] - here[1]) - (there[0, 0] - there[1, 0]))
        assert abs(float(np.median(errors_m))) < 0.02
        assert float(np.median(np.abs(errors_m))) < 0.04
