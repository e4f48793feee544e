"""Pictures of the canned swing: a still textured bay, a stick golfer and a blurring shaft.

All invented.  The shaft's motion blur is true: sub-frames across the shutter are averaged.
"""

from dataclasses import dataclass
from functools import lru_cache

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import Landmark, Pose
from baycue.swing.hands import grip_px
from tests.canned_readings import GRIP_TO_HEAD_M
from tests.canned_swing import canned_swing
from tests.stick_golfer import ARM_SHARE, FloatArray, Pinhole, StickGolfer, poses_of

GreyPicture = NDArray[np.uint8]

WIDTH_PX, HEIGHT_PX = Pinhole().width_px, Pinhole().height_px
SHAFT_PX, HEAD_PX = 3, 6
_NOISE, _CONTRAST, _CLOTHES = 3.0, 90.0, 60.0
_STEP_DEG, _MOST_STEPS = 1.0, 80
_POSTS_PX = (90, 250, 400, 880, 1010, 1190)
_FROM_S, _TO_S, _GRID_S = -1.6, 1.2, 0.004

_LIMBS = (
    (Landmark.LEFT_SHOULDER, Landmark.LEFT_ELBOW, Landmark.LEFT_WRIST),
    (Landmark.RIGHT_SHOULDER, Landmark.RIGHT_ELBOW, Landmark.RIGHT_WRIST),
    (Landmark.LEFT_HIP, Landmark.LEFT_KNEE, Landmark.LEFT_ANKLE, Landmark.LEFT_FOOT_INDEX),
    (Landmark.RIGHT_HIP, Landmark.RIGHT_KNEE, Landmark.RIGHT_ANKLE, Landmark.RIGHT_FOOT_INDEX),
)
_TORSO = (
    Landmark.LEFT_SHOULDER,
    Landmark.RIGHT_SHOULDER,
    Landmark.RIGHT_HIP,
    Landmark.LEFT_HIP,
)


@dataclass(frozen=True, slots=True)
class Drawing:
    """How the pictures are taken, and whether there is a shaft and whether there are posts."""

    shutter_s: float = 1 / 500
    with_club: bool = True
    with_posts: bool = True
    seed: int = 0


def drawn(times_s: FloatArray, poses: tuple[Pose, ...], how: Drawing) -> list[GreyPicture]:
    """One grey picture (720, 1280) for each time counted from the top."""
    rng = np.random.default_rng(how.seed)
    bay, grain = textured_bay(how.with_posts), _grain()
    return [
        _with_grain(_one(bay, float(t), pose, how), grain, rng)
        for t, pose in zip(times_s, poses, strict=True)
    ]


@lru_cache(maxsize=2)
def textured_bay(with_posts: bool) -> NDArray[np.float32]:
    """Soft blobs, a floor line and upright posts, the same in every picture."""
    rng = np.random.default_rng(99)
    rough = rng.uniform(60, 180, (HEIGHT_PX // 8, WIDTH_PX // 8)).astype(np.float32)
    soft = cv2.GaussianBlur(rough, (0, 0), 3)
    bay = cv2.resize((soft - soft.mean()) * 5 + 115, (WIDTH_PX, HEIGHT_PX))
    floor_px = HEIGHT_PX * 7 // 10
    bay[floor_px:] += 25
    for x in _POSTS_PX if with_posts else ():
        bay[20:floor_px, x : x + 8] -= 70
    return np.asarray(np.clip(bay, 10, 245), dtype=np.float32)


@lru_cache(maxsize=1)
def _grain() -> NDArray[np.float32]:
    rng = np.random.default_rng(98)
    return rng.normal(0, _NOISE, (HEIGHT_PX + 256, WIDTH_PX + 256)).astype(np.float32)


def _with_grain(
    picture: NDArray[np.float32], grain: NDArray[np.float32], rng: np.random.Generator
) -> GreyPicture:
    y, x = rng.integers(0, 256, 2)
    noisy = picture + grain[y : y + HEIGHT_PX, x : x + WIDTH_PX]
    return np.asarray(np.clip(np.rint(noisy), 0, 255), dtype=np.uint8)


def _one(bay: NDArray[np.float32], time_s: float, pose: Pose, how: Drawing) -> NDArray[np.float32]:
    picture = bay.copy()
    torso = pose.pixels[list(_TORSO)].round().astype(np.int32)
    cv2.fillConvexPoly(picture, torso, _CLOTHES, cv2.LINE_AA)
    head = pose.pixels[Landmark.NOSE].round().astype(int).tolist()
    cv2.circle(picture, head, 26, 150.0, -1, cv2.LINE_AA)
    for limb in _LIMBS:
        line = pose.pixels[list(limb)].round().astype(np.int32)
        cv2.polylines(picture, [line], False, _CLOTHES, 20, cv2.LINE_AA)
    if how.with_club:
        _add_shaft(picture, time_s, how.shutter_s)
    return picture


def _add_shaft(picture: NDArray[np.float32], time_s: float, shutter_s: float) -> None:
    """Average the shaft's sub-frames across the shutter and lay it over the picture."""
    opened, closed = time_s - shutter_s / 2, time_s + shutter_s / 2
    turned = abs(float(canned_swing().shaft_deg(closed) - canned_swing().shaft_deg(opened)))
    steps = int(np.clip(np.ceil(turned / _STEP_DEG), 1, _MOST_STEPS))
    cover = np.zeros(picture.shape, np.float32)
    for when in opened + (np.arange(steps) + 0.5) / steps * shutter_s:
        cover += _shaft_at(float(when))
    cover /= 255.0 * steps
    picture += cover * _CONTRAST


def _shaft_at(time_s: float) -> GreyPicture:
    mask = np.zeros((HEIGHT_PX, WIDTH_PX), np.uint8)
    start, end = (_sixteenths(p) for p in shaft_ends_px(time_s))
    cv2.line(mask, start, end, 255, SHAFT_PX, cv2.LINE_AA, 4)
    cv2.circle(mask, end, HEAD_PX * 16, 255, -1, cv2.LINE_AA, 4)
    return mask


def _sixteenths(point_px: FloatArray) -> tuple[int, int]:
    return round(float(point_px[0]) * 16), round(float(point_px[1]) * 16)


def shaft_ends_px(time_s: float) -> tuple[FloatArray, FloatArray]:
    """The hands and the club head in the picture."""
    hands = np.array([np.interp(time_s, _grid_s(), axis) for axis in _hands_track_px().T])
    angle = np.radians(float(canned_swing().shaft_deg(time_s)))
    return hands, hands + club_px() * np.array([np.sin(angle), np.cos(angle)])


@lru_cache(maxsize=1)
def club_px() -> float:
    """The club's length in the picture."""
    (pose,) = poses_of(np.array([-2.0]), canned_swing())
    arm_px = pose.pixel(Landmark.LEFT_WRIST) - pose.pixel(Landmark.LEFT_SHOULDER)
    return GRIP_TO_HEAD_M * float(np.linalg.norm(arm_px)) / (ARM_SHARE * StickGolfer().stature_m)


def _grid_s() -> FloatArray:
    return np.arange(_FROM_S, _TO_S, _GRID_S)


@lru_cache(maxsize=1)
def _hands_track_px() -> FloatArray:
    return np.array([grip_px(p) for p in poses_of(_grid_s(), canned_swing())])
