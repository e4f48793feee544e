"""How far away a stick along the target line lies, and how far the camera is turned from it.

With the camera turned by yaw to its right, a point of the line at distance d square to it
appears at u = tan(a - yaw) focal lengths from the middle, a being the angle to the point from
square: a pinhole's geometry.  A camera that looks down on the line from height h sees it go
down to the right by -(h / d) sin(yaw).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.bay.level import Level
from baycue.bay.stick import StickSeen

FloatArray = NDArray[np.float64]

END_SIGMA_PX = 0.8
"""An end's place in the full picture, found in one of half the size."""
LAID_SIGMA_DEG = 2.0
"""How well people lay a stick along their target line; common practice, no source."""
_YAW_BY_EYE_DEG = 5.0
_TILT_SIGMA_DEG = 3.0
_FOCAL_SIGMA_SHARE = 0.12
"""Few coaches know the field of view of their camera."""


@dataclass(frozen=True, slots=True)
class StickPose:
    """``distance_m``: from the camera to the stick's line, square to it; ``distance_share``:
    its one-sigma as a share, the focal length taken for granted.

    ``yaw_deg``: how far the camera is turned to the picture's right of looking square at the
    stick, and its one-sigma.
    """

    distance_m: float
    distance_share: float
    yaw_deg: float
    yaw_sigma_deg: float


def stick_pose(
    seen: StickSeen, length_m: float, focal_px: float, size_px: tuple[int, int], level: Level
) -> StickPose:
    """The pose of a stick whose ends are as a level camera would have seen them."""
    ends = (seen.ends_px - np.array(size_px) / 2) / focal_px
    yaw, yaw_sigma = _yaw_deg(ends, level)
    distance = _distance_m(ends, length_m, yaw)
    turned = _distance_m(ends, length_m, yaw + yaw_sigma) / distance - 1
    read = np.sqrt(2) * END_SIGMA_PX / float(np.linalg.norm(seen.ends_px[1] - seen.ends_px[0]))
    return StickPose(distance, float(np.hypot(turned, read)), yaw, yaw_sigma)


def _yaw_deg(ends: FloatArray, level: Level) -> tuple[float, float]:
    """Yaw and sigma, deg: from the slope, and from nobody setting a camera up far askew."""
    run = ends[1] - ends[0]
    slope = float(run[1] / run[0])
    down = np.arctan(float(ends[:, 1].mean()))
    look_down = float(np.tan(max(down, np.radians(1.0))))
    look_sigma = np.hypot(np.radians(_TILT_SIGMA_DEG), _FOCAL_SIGMA_SHARE * look_down)
    told = -np.degrees(np.arctan(slope / look_down))
    told_sigma = np.linalg.norm(
        [level.sigma_deg / look_down, told * look_sigma / look_down, LAID_SIGMA_DEG]
    )
    weights = np.array([told_sigma, _YAW_BY_EYE_DEG]) ** -2.0
    return float(told * weights[0] / weights.sum()), float(weights.sum() ** -0.5)


def _distance_m(ends: FloatArray, length_m: float, yaw_deg: float) -> float:
    angles = np.arctan(ends[:, 0]) + np.radians(yaw_deg)
    return float(length_m / (np.tan(angles[1]) - np.tan(angles[0])))
