"""The golfer's body in one frame."""

from dataclasses import dataclass
from enum import IntEnum

import numpy as np
from numpy.typing import NDArray

FloatArray = NDArray[np.float64]

LANDMARK_COUNT = 33


class Landmark(IntEnum):
    """The pose model's 33 points; left and right are the person's own sides."""

    NOSE = 0
    LEFT_EYE_INNER = 1
    LEFT_EYE = 2
    LEFT_EYE_OUTER = 3
    RIGHT_EYE_INNER = 4
    RIGHT_EYE = 5
    RIGHT_EYE_OUTER = 6
    LEFT_EAR = 7
    RIGHT_EAR = 8
    MOUTH_LEFT = 9
    MOUTH_RIGHT = 10
    LEFT_SHOULDER = 11
    RIGHT_SHOULDER = 12
    LEFT_ELBOW = 13
    RIGHT_ELBOW = 14
    LEFT_WRIST = 15
    RIGHT_WRIST = 16
    LEFT_PINKY = 17
    RIGHT_PINKY = 18
    LEFT_INDEX = 19
    RIGHT_INDEX = 20
    LEFT_THUMB = 21
    RIGHT_THUMB = 22
    LEFT_HIP = 23
    RIGHT_HIP = 24
    LEFT_KNEE = 25
    RIGHT_KNEE = 26
    LEFT_ANKLE = 27
    RIGHT_ANKLE = 28
    LEFT_HEEL = 29
    RIGHT_HEEL = 30
    LEFT_FOOT_INDEX = 31
    RIGHT_FOOT_INDEX = 32


@dataclass(frozen=True, slots=True)
class Pose:
    """Landmarks of the one golfer in one frame.

    ``pixels``: (33, 2) columns x right, y down, px, of the picture as read.
    ``world_m``: (33, 3) metres about the hip centre, x right, y down, z away from the
    camera, in the pose model's own idea of scale.
    ``visibility``: (33,) 0 to 1.
    """

    frame_index: int
    stamp_ns: int
    pixels: FloatArray
    world_m: FloatArray
    visibility: FloatArray

    def pixel(self, landmark: Landmark) -> FloatArray:
        """The (2,) position of one landmark, px."""
        return np.asarray(self.pixels[landmark])
