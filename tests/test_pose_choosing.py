"""Of two people in the picture the golfer is followed, not who walks by in the back."""

from dataclasses import replace

import cv2
import numpy as np
import pytest

from baycue.bench.population import SHORT_FPS_SHARES, draw
from baycue.bench.render import frames
from baycue.bench.staging import staged
from baycue.capture.frame import Frame, Picture
from baycue.pose.choosing import Choosing, nearer_beside
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import FloatArray, Pose
from baycue.pose.presence import body_height_px, mid_hip
from baycue.pose.video_model import bodies_in
from baycue.pose.window import alone, without
from tests.canned_swing import canned_swing
from tests.standing_golfer import empty_bay, standing_golfer
from tests.stick_golfer import frame_times_s, poses_of

STANDING = poses_of(frame_times_s(30, -2.6, -2.5), canned_swing())[0]
HEIGHT_PX = body_height_px(STANDING)
FRAME_NS = 33_333_333


def seen(frame: int, right: float = 0.0, size: float = 1.0, feet_up: float = 0.0) -> Pose:
    """The standing pose, later, elsewhere and of another size; in its own body heights."""
    ankles = STANDING.pixels[27:29].mean(axis=0)
    moved_px = HEIGHT_PX * np.array([right, -feet_up])
    pixels = ankles + size * (STANDING.pixels - ankles) + moved_px
    return replace(STANDING, stamp_ns=frame * FRAME_NS, pixels=pixels)


@pytest.mark.parametrize(
    ("size", "feet_up", "is_nearer"),
    [(0.8, 0.1, False), (1.03, 0.1, False), (0.95, -0.1, True), (1.2, -0.1, True)],
)
def test_who_has_lower_feet_and_longer_legs_is_nearer(
    size: float, feet_up: float, is_nearer: bool
) -> None:
    other = seen(0, right=1.0, size=size, feet_up=feet_up)
    assert nearer_beside(other, STANDING) is is_nearer
    assert nearer_beside(STANDING, other) is not is_nearer


def test_one_body_seen_twice_is_nobody_else() -> None:
    assert not nearer_beside(seen(0, right=0.05, size=1.2, feet_up=-0.1), STANDING)


def looks(places: list[float]) -> list[int]:
    """The frames, of a body seen at these places, at which a look for somebody nearer is due."""
    choosing, due = Choosing(), []
    for k, right in enumerate(places):
        if choosing.due(seen(k, right)):
            due.append(k)
        choosing = choosing.after(seen(k, right))
    return due


def test_whoever_is_found_is_looked_beside_once() -> None:
    assert looks([0.0] * 40) == [0]


def test_who_walks_is_looked_beside_again_and_again() -> None:
    """1.25 m a second, nose to ankle 1.6 m: 0.31 of it in 0.4 s."""
    assert looks([k * 1.25 / 30 / 1.6 for k in range(40)]) == [0, 12, 24, 36]


def test_who_has_stood_still_is_settled_on_and_may_walk_about() -> None:
    assert looks([0.0] * 20 + [k * 0.03 for k in range(40)]) == [0]


def test_who_comes_back_is_looked_beside_anew() -> None:
    choosing = Choosing()
    for k in range(20):
        choosing = choosing.after(seen(k))
    assert not choosing.due(seen(25))
    assert choosing.due(seen(40))


@pytest.mark.parametrize(("seed", "number"), [(11, 4), (22, 13)])
def test_the_golfer_is_followed_where_the_detector_alone_takes_who_is_behind(
    seed: int, number: int
) -> None:
    drawn = draw(seed, number, SHORT_FPS_SHARES)
    first = next(frames(staged(drawn)))
    golfer_px = picture_px(seed, number)
    (taken_alone,) = bodies_in([first], most=1)[0]
    assert np.linalg.norm(mid_hip(taken_alone) - golfer_px) > 0.5 * body_height_px(taken_alone)
    with MediaPipePose() as model:
        for again in range(3):
            pose = model.estimate(replace(first, index=again, stamp_ns=again * FRAME_NS))
            assert pose is not None
            assert np.linalg.norm(mid_hip(pose) - golfer_px) < 0.2 * body_height_px(pose)


def picture_px(seed: int, number: int) -> FloatArray:
    """Where the golfer's hips are in the first picture."""
    stage = staged(draw(seed, number, SHORT_FPS_SHARES))
    hips_m = np.array([[0.0, 0.52 * stage.shot.body.stature_m, 0.0]])
    return np.asarray(stage.shot.picture_px(hips_m)[0])


def with_passer(picture: Picture, left_px: int) -> Picture:
    """Somebody pasted in smaller and higher, with their own bit of bay."""
    passer = cv2.resize(standing_golfer().picture[120:700, 500:780], None, fx=0.7, fy=0.7)
    pasted = picture.copy()
    pasted[150 : 150 + passer.shape[0], left_px : left_px + passer.shape[1]] = passer
    return pasted


def test_a_golfer_who_comes_while_a_passer_is_followed_is_found() -> None:
    places: list[float] = []
    with MediaPipePose() as model:
        for k in range(16):
            bay = empty_bay() if k < 3 else standing_golfer().picture
            pose = model.estimate(Frame(k, k * FRAME_NS, with_passer(bay, 10 + 15 * k)))
            places.append(float(mid_hip(pose)[0]) if pose else np.nan)
    assert np.nanmax(places[:4]) < 300
    assert places[-1] == pytest.approx(640, abs=20)


def test_a_golfer_is_kept_though_somebody_passes() -> None:
    with MediaPipePose() as model:
        for k in range(8):
            filmed = with_passer(standing_golfer().picture, 10 + 15 * k)
            pose = model.estimate(Frame(k, k * FRAME_NS, filmed))
            assert pose is not None
            assert mid_hip(pose)[0] == pytest.approx(640, abs=20)


def test_a_body_is_painted_over_or_left_alone() -> None:
    frame = standing_golfer().frame()
    (body,) = bodies_in([frame], most=1)[0]
    gone, only = without(frame, body), alone(frame, body)
    assert bodies_in([gone], most=1) == [()]
    (again,) = bodies_in([only], most=1)[0]
    assert np.abs(mid_hip(again) - mid_hip(body)).max() < 0.03 * body_height_px(body)
    corner = np.s_[:40, :40]
    assert np.array_equal(gone.picture_bgr[corner], frame.picture_bgr[corner])
    assert np.ptp(only.picture_bgr[corner]) == 0
