"""Does the camera stand level and square to the golfer?"""

from collections.abc import Sequence

import numpy as np

from baycue.bay.level import SET_BY_EYE, Level, camera_level
from baycue.plan.stance import View
from baycue.pose.pose import Landmark, Pose
from baycue.setup.looked import Looked
from baycue.setup.report import Answer, SetUpRow

_LEVEL_DEG, _ASKEW_DEG = 2.0, 3.0
_GOLFER_ROOM = 0.15

YAW_SIGMA_DEG = 5.0
"""On 18 pictures of three rendered golfers, the camera -20 to 20 degrees round them, the error's
RMS was 2.3 degrees and the largest 6; how people stand to their line is the rest (assumed)."""

_SQUARE_DEG, _AWRY_DEG = 8.0, 13.0
_AT_ADDRESS_DEG = 4.0
"""Feet, hips and shoulders together read that much open to a camera that is square: measured
on the same golfers, for the trail shoulder is lower and farther out."""
_LINES = (
    (Landmark.RIGHT_ANKLE, Landmark.LEFT_ANKLE),
    (Landmark.RIGHT_HIP, Landmark.LEFT_HIP),
    (Landmark.RIGHT_SHOULDER, Landmark.LEFT_SHOULDER),
)


def level(looked: Looked) -> SetUpRow:
    """The camera's lean, from the bay's uprights; unsure where it shows too few."""
    lean = camera_level(looked.greys, looked.golfer_box(_GOLFER_ROOM))
    if lean == SET_BY_EYE:
        return SetUpRow(
            "level",
            Answer.UNSURE,
            "too few uprights in the picture to tell",
            "See that posts and walls stand upright in the picture.",
        )
    found = f"leans {abs(lean.slant_deg):.1f} deg, give or take {lean.sigma_deg:.1f}"
    if abs(lean.slant_deg) <= _LEVEL_DEG:
        return SetUpRow("level", Answer.GO, found)
    answer = Answer.NO_GO if abs(lean.slant_deg) > _ASKEW_DEG else Answer.UNSURE
    return SetUpRow("level", answer, found, _turn_level(lean, looked.plan.camera.mirrored))


def _turn_level(lean: Level, mirrored: bool) -> str:
    """Uprights whose foot is to the right show a camera turned clockwise, seen from behind it."""
    clockwise = (lean.slant_deg < 0) != mirrored
    way = "clockwise" if clockwise else "anticlockwise"
    return f"From behind, turn the camera {abs(lean.slant_deg):.0f} deg {way}."


def square(looked: Looked) -> SetUpRow:
    """Whether the camera looks at the chest at right angles to the golfer's line, face-on."""
    if looked.plan.view is not View.FACE_ON:
        return SetUpRow("square", Answer.UNSURE, "not measured down the line", _BY_EYE)
    if not looked.at_address:
        return SetUpRow("square", Answer.UNSURE, "nobody stood at the ball", _BY_EYE)
    yaw = camera_yaw_deg(looked.at_address, looked.stance.toward_target)
    found = f"{abs(yaw):.0f} deg off, give or take {YAW_SIGMA_DEG:.0f}"
    if abs(yaw) <= _SQUARE_DEG:
        return SetUpRow("square", Answer.GO, found)
    answer = Answer.NO_GO if abs(yaw) > _AWRY_DEG else Answer.UNSURE
    side = "left" if (yaw > 0) != looked.plan.camera.mirrored else "right"
    do = f"From behind, move the camera to the {side} and aim it at the golfer again."
    return SetUpRow("square", answer, found, do)


_BY_EYE = "See by eye that the camera looks square to the target line."


def camera_yaw_deg(poses: Sequence[Pose], toward_target: int) -> float:
    """How far round the golfer the camera stands, degrees; + if too far to its own right.

    From the model's own depth of ankles, hips and shoulders at address, whose one-sigma is
    ``YAW_SIGMA_DEG``.  In a mirrored picture left and right are the picture's.
    """
    turned = [_turned_deg(p, *line) for p in poses for line in _LINES]
    return _AT_ADDRESS_DEG * toward_target - float(np.mean(turned))


def _turned_deg(pose: Pose, right: Landmark, left: Landmark) -> float:
    across = pose.world_m[left] - pose.world_m[right]
    return float(np.degrees(np.arctan2(across[2], across[0])))
