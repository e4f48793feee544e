"""Where garments end, as levels over a body at rest."""

from collections.abc import Callable

import numpy as np

from baycue.synthetic.body import parts
from baycue.synthetic.scene import Body, FloatArray

Level = Callable[[FloatArray], FloatArray]
"""(N, 3) points, metres, to (N,) signed distances (or nearly so) from a seam."""


class Seams:
    """Where garments end, as levels of a body at rest."""

    def __init__(self, body: Body) -> None:
        self.body = body
        self.size_m = body.stature_m
        eyes = body.quads[parts(body, "eye")]
        self.eyes_m: FloatArray = body.vertices_m[eyes].mean(axis=(0, 1))
        self.waist_m = float(self.joint("spine_01")[1]) + 0.004 * self.size_m

    def joint(self, bone: str) -> FloatArray:
        """(3,) head of a bone."""
        return np.asarray(self.body.bone_rest[self.body.bone(bone), :3, 3])

    def belt_top(self, points: FloatArray) -> FloatArray:
        """Positive above the belt."""
        return np.asarray(points[:, 1] - self.waist_m - 0.011 * self.size_m)

    def belt_foot(self, points: FloatArray) -> FloatArray:
        """Positive above the belt's lower edge."""
        return np.asarray(points[:, 1] - self.waist_m + 0.011 * self.size_m)

    def buckle(self, points: FloatArray) -> FloatArray:
        """Positive beside the buckle."""
        return np.asarray(np.abs(points[:, 0]) - 0.016 * self.size_m)

    def hem(self, points: FloatArray) -> FloatArray:
        """Positive above the shoes."""
        ankle = self.joint("foot_l")
        forward = np.maximum(points[:, 2] - ankle[2], 0.0)
        return np.asarray(points[:, 1] - ankle[1] - 0.35 * forward)

    def collar(self, points: FloatArray) -> FloatArray:
        """Positive above the collar, which stands higher at the back."""
        neck = self.joint("neck_01")
        return np.asarray(
            points[:, 1] - neck[1] + 0.002 * self.size_m - 0.35 * (neck[2] - points[:, 2])
        )

    def sleeve(self, side: str) -> Level:
        """Positive below the short sleeve's end."""
        shoulder, elbow = self.joint("upperarm" + side), self.joint("lowerarm" + side)
        along = (elbow - shoulder) / np.linalg.norm(elbow - shoulder)
        end_m = 0.72 * float(np.linalg.norm(elbow - shoulder))
        return lambda points: (points - shoulder) @ along - end_m

    def glove(self, points: FloatArray) -> FloatArray:
        """Positive beyond the lead wrist."""
        wrist, knuckle = self.joint("hand_l"), self.joint("middle_01_l")
        return np.asarray((points - wrist) @ (knuckle - wrist) / np.linalg.norm(knuckle - wrist))

    def cap(self, points: FloatArray) -> FloatArray:
        """Positive under the cap: above the brow in front, lower at the back."""
        forward = points[:, 2] - self.eyes_m[2]
        return np.asarray(points[:, 1] - self.eyes_m[1] - 0.022 * self.size_m - 0.12 * forward)

    def hair(self, points: FloatArray) -> FloatArray:
        """Positive on the scalp."""
        up = points[:, 1] - self.eyes_m[1]
        behind = self.eyes_m[2] - points[:, 2]
        top = up - 0.030 * self.size_m
        back = np.minimum(behind - 0.052 * self.size_m, up + 0.35 * behind - 0.0104 * self.size_m)
        return np.asarray(np.maximum(top, back))
