"""A pinhole camera in the bay.

Picture coordinates are OpenCV's: x right, y down, the centre of the first pixel is (0, 0).
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from baycue.plan.stance import Handedness, View
from baycue.synthetic.scene import FloatArray


@dataclass(frozen=True)
class Camera:
    """Where the camera stands, where it looks and how wide.

    ``distance_m`` is measured from the world's origin (between the golfer's feet) along
    the view: face-on the camera stands at +z and looks back along z, so that +x appears on
    the right; down-the-line it stands behind the golfer and looks along the target line,
    which is +x, or -x for a left-hander.  ``aside_m`` moves it to its own right.
    ``yaw_deg`` turns it to its right, ``tilt_deg`` down, ``roll_deg`` clockwise as the
    camera itself sees it, so that the picture turns the other way.
    ``field_of_view_deg`` is horizontal.
    """

    view: View = View.FACE_ON
    width_px: int = 1280
    height_px: int = 720
    distance_m: float = 3.5
    height_m: float = 1.1
    aside_m: float = 0.0
    yaw_deg: float = 0.0
    tilt_deg: float = 0.0
    roll_deg: float = 0.0
    field_of_view_deg: float = 60.0
    handedness: Handedness = Handedness.RIGHT

    @cached_property
    def _level_forward(self) -> FloatArray:
        if self.view is View.FACE_ON:
            return np.array([0.0, 0.0, -1.0])
        return np.array([1.0 if self.handedness is Handedness.RIGHT else -1.0, 0.0, 0.0])

    @cached_property
    def position_m(self) -> FloatArray:
        """(3,) the pinhole, world."""
        right = np.cross(self._level_forward, [0.0, 1.0, 0.0])
        standing = -self.distance_m * self._level_forward + self.aside_m * right
        return np.asarray(standing + np.array([0.0, self.height_m, 0.0]))

    @cached_property
    def rotation(self) -> FloatArray:
        """(3, 3) world to camera; its rows are the camera's right, down and forward."""
        forward = self._level_forward
        level = np.stack([np.cross(forward, [0.0, 1.0, 0.0]), [0.0, -1.0, 0.0], forward])
        yaw = _turn(1, math.radians(self.yaw_deg))
        tilt = _turn(0, -math.radians(self.tilt_deg))
        roll = _turn(2, math.radians(self.roll_deg))
        return np.asarray((yaw @ tilt @ roll).T @ level)

    @cached_property
    def intrinsics(self) -> FloatArray:
        """(3, 3) focal lengths and principal point, px."""
        focal_px = self.width_px / 2 / math.tan(math.radians(self.field_of_view_deg) / 2)
        centre = (self.width_px - 1) / 2, (self.height_px - 1) / 2
        return np.array([[focal_px, 0, centre[0]], [0, focal_px, centre[1]], [0, 0, 1]])

    @property
    def focal_px(self) -> float:
        """Focal length, px."""
        return float(self.intrinsics[0, 0])

    def project(self, points_m: FloatArray) -> tuple[FloatArray, FloatArray]:
        """World (N, 3) points to (N, 2) px and (N,) depth along the view, metres.

        Points at or behind the pinhole (depth <= 0) have no meaningful pixel.
        """
        seen = (points_m - self.position_m) @ self.rotation.T
        depth_m = seen[:, 2]
        flat = seen[:, :2] / np.where(np.abs(depth_m) < 1e-9, 1e-9, depth_m)[:, None]
        return flat * self.focal_px + self.intrinsics[:2, 2], depth_m


def _turn(axis: int, angle_rad: float) -> FloatArray:
    """Right-handed (3, 3) rotation about one of the camera's axes."""
    c, s = math.cos(angle_rad), math.sin(angle_rad)
    first, second = (axis + 1) % 3, (axis + 2) % 3
    turn = np.eye(3)
    turn[first, first] = turn[second, second] = c
    turn[first, second], turn[second, first] = -s, s
    return turn
