"""A stick golfer with known joints, seen through an exact pinhole (``cv2.projectPoints``).

World axes, metres: x along the target line, y up, z from the golfer to the ball; the origin
is on the ground between the ankles.  The figure is a right-hander; the left-hander is its
mirror image.  Limb lengths are Drillis & Contini 1966, as printed in Winter 2009 fig. 4.1.
The hands swing in the picture-parallel plane of the shoulders, so that face-on the lead arm's
angle in the picture is exactly the one asked for.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.measures.evidence import Camera
from baycue.pose.pose import LANDMARK_COUNT, Landmark, Pose
from tests.canned_swing import CannedSwing

FloatArray = NDArray[np.float64]
OverTime = Callable[[float], float]


HIP_HALF_SHARE, SHOULDER_HALF_SHARE = 0.191 / 2, 0.259 / 2
SHANK_SHARE, THIGH_SHARE, TRUNK_SHARE = 0.246, 0.245, 0.818 - 0.530
ARM_SHARE = 0.186 + 0.146
_ANKLE_HALF_M, _ANKLE_Y_SHARE = 0.22, 0.039
_KNEE_OUT_M, _HIP_BACK_M, _LEAN_DEG = 0.10, 0.05, 32.0

_SIDES_EXCHANGED = {
    Landmark[name]: Landmark[
        name.replace("LEFT", "*").replace("RIGHT", "LEFT").replace("*", "RIGHT")
    ]
    for name in Landmark.__members__
}
_EXCHANGE = [_SIDES_EXCHANGED[Landmark(k)] for k in range(LANDMARK_COUNT)]

FACE_ON_ROWS = np.array([[1.0, 0, 0], [0, -1, 0], [0, 0, -1]])
"""The camera's right, down and forward in the world's axes: it looks at the golfer's chest."""
DOWN_THE_LINE_ROWS = np.array([[0.0, 0, 1], [0, -1, 0], [1, 0, 0]])
"""It looks along the target line from behind."""


def still(_time_s: float) -> float:
    """What does not move."""
    return 0.0


@dataclass(frozen=True, slots=True)
class StickGolfer:
    """What moves besides the arms, over time in seconds from the top; metres.

    ``knee_m``: lead knee ahead of the lead ankle.  ``head_m``: head above where it was.
    """

    stature_m: float = 1.78
    knee_m: OverTime = still
    head_m: OverTime = still


@dataclass(frozen=True, slots=True)
class Pinhole:
    """A camera ``distance_m`` off; the golfer stands ``aside_m`` right of its axis.

    ``rows``: (3, 3) its right, down and forward axes in the world's.
    """

    distance_m: float = 3.6
    height_m: float = 1.0
    aside_m: float = 0.0
    width_px: int = 1280
    height_px: int = 720
    fov_deg: float = 70.0
    rows: tuple[tuple[float, ...], ...] = tuple(map(tuple, FACE_ON_ROWS))

    @property
    def known(self) -> Camera:
        """What the measures know of it."""
        return Camera(self.width_px, self.height_px, self.fov_deg)

    def seen_px(self, world_m: FloatArray) -> FloatArray:
        """Where (N, 3) points appear, (N, 2) px, by OpenCV."""
        rows = np.array(self.rows)
        eye = np.array([0.0, self.height_m, 0.0]) - self.distance_m * rows[2]
        eye = eye - self.aside_m * rows[0]
        focal = self.known.focal_px
        inner = np.array([[focal, 0, self.width_px / 2], [0, focal, self.height_px / 2], [0, 0, 1]])
        turn, _ = cv2.Rodrigues(rows)
        seen, _ = cv2.projectPoints(world_m, turn, -rows @ eye, inner, None)
        return np.asarray(seen.reshape(-1, 2), dtype=np.float64)

    def model_m(self, world_m: FloatArray) -> FloatArray:
        """The points in the pose model's axes about the hip centre, true to scale, (N, 3).

        The model is shown the golfer cut out, so its "away" is along the line of sight.
        """
        hips = world_m[[Landmark.LEFT_HIP, Landmark.RIGHT_HIP]].mean(axis=0)
        turn = np.arctan2(self.aside_m, self.distance_m)
        right, down, away = np.array(self.rows)
        sight = np.cos(turn) * away + np.sin(turn) * right
        across = np.cos(turn) * right - np.sin(turn) * away
        return np.asarray((world_m - hips) @ np.array([across, down, sight]).T)


def down_the_line(distance_m: float = 3.6) -> Pinhole:
    """A camera behind the golfer on the target line."""
    return Pinhole(distance_m, rows=tuple(map(tuple, DOWN_THE_LINE_ROWS)))


def joints_m(golfer: StickGolfer, arm_deg: float, shaft_deg: float, time_s: float) -> FloatArray:
    """The (33, 3) joints in the world; the grip's middle is ``grip_of`` them."""
    h = golfer.stature_m
    joints = np.zeros((LANDMARK_COUNT, 3))
    for sign, side in ((1, "LEFT"), (-1, "RIGHT")):
        ankle = np.array([sign * _ANKLE_HALF_M, _ANKLE_Y_SHARE * h, 0.0])
        past = golfer.knee_m(time_s) if sign > 0 else 0.0
        knee = ankle + _rest_up(SHANK_SHARE * h, past, _KNEE_OUT_M)
        hip_x = sign * HIP_HALF_SHARE * h
        straight = ankle + _rest_up(SHANK_SHARE * h, 0.0, _KNEE_OUT_M)
        back = -_HIP_BACK_M - straight[2]
        hip = straight + _rest_up(THIGH_SHARE * h, hip_x - straight[0], back)
        joints[Landmark[f"{side}_ANKLE"]] = ankle
        joints[Landmark[f"{side}_KNEE"]] = knee
        joints[Landmark[f"{side}_HIP"]] = hip
        joints[Landmark[f"{side}_HEEL"]] = ankle + _step(0, -0.05, -0.05)
        joints[Landmark[f"{side}_FOOT_INDEX"]] = ankle + _step(sign * 0.03, -0.05, 0.16)
    _add_upper_body(joints, golfer, time_s)
    _add_arms(joints, h, arm_deg, shaft_deg)
    return joints


def _rest_up(length: float, across: float, out: float) -> FloatArray:
    return _step(across, float(np.sqrt(length**2 - across**2 - out**2)), out)


def _step(across: float, up: float, out: float) -> FloatArray:
    return np.array([across, up, out])


def _add_upper_body(joints: FloatArray, golfer: StickGolfer, time_s: float) -> None:
    h, lean = golfer.stature_m, np.radians(_LEAN_DEG)
    along = np.array([0, np.cos(lean), np.sin(lean)])
    mid = joints[[Landmark.LEFT_HIP, Landmark.RIGHT_HIP]].mean(axis=0) + TRUNK_SHARE * h * along
    for sign, side in ((1, "LEFT"), (-1, "RIGHT")):
        joints[Landmark[f"{side}_SHOULDER"]] = mid + _step(sign * SHOULDER_HALF_SHARE * h, 0, 0)
    head = mid + 0.10 * h * along + _step(0, golfer.head_m(time_s), 0)
    for k in range(Landmark.NOSE, Landmark.MOUTH_RIGHT + 1):
        joints[k] = head + _step(0, 0, 0.08)
    for sign, side in ((1, "LEFT"), (-1, "RIGHT")):
        joints[Landmark[f"{side}_EAR"]] = head + _step(sign * 0.07, 0.01, 0)


def _add_arms(joints: FloatArray, stature_m: float, arm_deg: float, shaft_deg: float) -> None:
    arm, shaft = _direction(arm_deg), _direction(shaft_deg)
    lead = joints[Landmark.LEFT_SHOULDER]
    wrist = lead + ARM_SHARE * stature_m * arm
    joints[Landmark.LEFT_ELBOW] = lead + 0.186 * stature_m * arm
    joints[Landmark.LEFT_WRIST] = wrist
    joints[Landmark.RIGHT_WRIST] = wrist + 0.07 * shaft
    joints[Landmark.RIGHT_ELBOW] = (
        joints[Landmark.RIGHT_SHOULDER] + joints[Landmark.RIGHT_WRIST]
    ) / 2
    middle = (joints[Landmark.LEFT_WRIST] + joints[Landmark.RIGHT_WRIST]) / 2
    for name in ("PINKY", "INDEX", "THUMB"):
        for side in ("LEFT", "RIGHT"):
            joints[Landmark[f"{side}_{name}"]] = middle + 0.06 * arm


def _direction(angle_deg: float) -> FloatArray:
    angle = np.radians(angle_deg)
    return np.array([np.sin(angle), -np.cos(angle), 0.0])


def poses_of(
    times_s: FloatArray,
    swing: CannedSwing,
    golfer: StickGolfer | None = None,
    camera: Pinhole | None = None,
    start_ns: int = 10_000_000_000,
) -> tuple[Pose, ...]:
    """The right-hander's poses at times counted from the top, which is stamped ``start_ns``."""
    golfer, camera = golfer or StickGolfer(), camera or Pinhole()
    if not len(times_s):
        return ()
    angles = zip(swing.arm_deg(times_s), swing.shaft_deg(times_s), times_s, strict=True)
    world = np.array([joints_m(golfer, *map(float, each)) for each in angles])
    seen = camera.seen_px(world.reshape(-1, 3)).reshape(*world.shape[:2], 2)
    stamps = [start_ns + round(float(t) * 1e9) for t in times_s]
    return tuple(
        Pose(k, stamp, seen[k], camera.model_m(world[k]), np.ones(LANDMARK_COUNT))
        for k, stamp in enumerate(stamps)
    )


def mirrored(poses: Sequence[Pose], width_px: int) -> tuple[Pose, ...]:
    """What the model sees in the mirrored picture: also what a left-hander looks like."""
    return tuple(
        replace(
            p,
            pixels=(p.pixels * [-1, 1] + [width_px, 0])[_EXCHANGE],
            world_m=(p.world_m * [-1, 1, 1])[_EXCHANGE],
            visibility=p.visibility[_EXCHANGE],
        )
        for p in poses
    )


def jittered(poses: Sequence[Pose], sigma_px: float, rng: np.random.Generator) -> tuple[Pose, ...]:
    """The poses with noise on every landmark in the picture."""
    return tuple(
        replace(p, pixels=p.pixels + rng.normal(0, sigma_px, p.pixels.shape)) for p in poses
    )


def frame_times_s(fps: float, from_s: float, to_s: float, phase: float = 0.0) -> FloatArray:
    """Frame times; ``phase``: 0 to 1, by what part of a frame they are late."""
    return np.arange(from_s + phase / fps, to_s, 1 / fps)
