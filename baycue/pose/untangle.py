"""Putting right a pose whose left and right were taken for each other."""

from dataclasses import replace

import numpy as np

from baycue.pose.pose import Landmark, Pose

_SWAPPED = np.array([0, 4, 5, 6, 1, 2, 3, *(k + 1 if k % 2 else k - 1 for k in range(7, 33))])
"""For each landmark the one on the other side of the body."""


def untangled(pose: Pose) -> Pose:
    """The pose with its sides exchanged if its ankles are crossed.

    Face-on, a golfer's feet never cross: the left ankle is on the picture's right, mirrored
    or not, for the model names the sides of the body that it sees.  In blurred frames it now
    and then takes a golfer for one seen from behind.
    """
    left, right = pose.pixels[Landmark.LEFT_ANKLE], pose.pixels[Landmark.RIGHT_ANKLE]
    if left[0] >= right[0]:
        return pose
    return replace(
        pose,
        pixels=pose.pixels[_SWAPPED],
        world_m=pose.world_m[_SWAPPED],
        visibility=pose.visibility[_SWAPPED],
    )
