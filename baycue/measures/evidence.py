"""All that is known about one swing, from which every measure is taken."""

from dataclasses import dataclass

from baycue.club.reading import ShaftReading
from baycue.plan.stance import Handedness, View
from baycue.pose.pose import Pose
from baycue.swing.swing import Swing


@dataclass(frozen=True, slots=True)
class Camera:
    """What is assumed or known of the camera: picture size and field of view."""

    width_px: int
    height_px: int
    horizontal_fov_deg: float
    mirrored: bool


@dataclass(frozen=True, slots=True)
class SwingEvidence:
    """A swing with the poses and shaft readings around it, in order of time."""

    swing: Swing
    poses: tuple[Pose, ...]
    shaft: tuple[ShaftReading, ...]
    handedness: Handedness
    view: View
    stature_m: float
    camera: Camera
