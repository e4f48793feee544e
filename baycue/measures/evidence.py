"""All that is known about one swing, from which every measure is taken."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.bay.level import SET_BY_EYE, Level, levelled, levelled_shaft
from baycue.club.reading import Evidence, ShaftReading
from baycue.measures.ruler import NO_RULER, Ruler
from baycue.plan.stance import View
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import Stance
from baycue.swing.swing import Swing

FloatArray = NDArray[np.float64]

_COMPANY_BODIES2, _COMPANY_FACTOR = 0.004, 1.25
"""On 44 development swings: 0.0000 in each of 24 with nobody there, up to 0.09 in 20 with somebody
walking by, who is painted out before (``bay.paint_out``).  On 269 of seeds 9, 10 and 12 with
somebody walking by, knee and head were within two sigmas in 94 to 98 % with a factor of 1.5."""


def in_company(beside_bodies2: float) -> bool:
    """Whether so much new beside the golfer, as in ``SwingEvidence``, is somebody close behind."""
    return beside_bodies2 > _COMPANY_BODIES2


@dataclass(frozen=True, slots=True)
class Camera:
    """What is known or assumed of the camera: picture size, field of view and lens.

    ``lens_bow``: as in ``plan.camera_facts.Lens``.
    """

    width_px: int
    height_px: int
    horizontal_fov_deg: float
    lens_bow: float = 0.0

    @property
    def focal_px(self) -> float:
        """Focal length, px, of a pinhole with that field of view."""
        return self.width_px / 2 / float(np.tan(np.radians(self.horizontal_fov_deg / 2)))


@dataclass(frozen=True, slots=True)
class SwingEvidence:
    """A swing with the poses and shaft readings around it, in order of time.

    Both are as a level camera would have seen them; ``level`` says how sure that is.
    ``beside_bodies2``: how much beside the golfer was new at the ball, about the top or while the
    club came down, the most of the three, in squares of a body's length: somebody who walks by
    close behind.
    """

    swing: Swing
    poses: tuple[Pose, ...]
    shaft: tuple[ShaftReading, ...]
    stance: Stance
    view: View
    stature_m: float
    camera: Camera
    level: Level = SET_BY_EYE
    ruler: Ruler = NO_RULER
    beside_bodies2: float = 0.0

    @property
    def in_company(self) -> bool:
        """Whether somebody was close behind the golfer at the ball or as the club came down."""
        return in_company(self.beside_bodies2)

    @property
    def company_factor(self) -> float:
        """What a landmark's spread is multiplied by if somebody was."""
        return _COMPANY_FACTOR if self.in_company else 1.0

    @property
    def times_s(self) -> FloatArray:
        """When each pose was seen, (N,)."""
        return np.array([p.stamp_ns for p in self.poses]) * 1e-9

    @property
    def shaft_seen_share(self) -> float:
        """The share of frames whose own picture showed the shaft, 0 to 1."""
        seen = [r.evidence is Evidence.PICTURE for r in self.shaft]
        return sum(seen) / len(self.poses)

    def pose_as_filmed(self, pose: Pose) -> Pose:
        """One of ``poses`` where it lies in the picture of a camera that may lean."""
        return levelled(pose, -self.level, self.camera.width_px, self.camera.height_px)

    def shaft_as_filmed(self, reading: ShaftReading) -> ShaftReading:
        """One of ``shaft`` as it lies in that picture."""
        return levelled_shaft(reading, -self.level, self.stance)

    def track_px(self, *landmarks: Landmark) -> FloatArray:
        """The mean of some landmarks through the swing, (N, 2)."""
        places = np.array([p.pixels for p in self.poses])[:, landmarks]
        return np.asarray(places.mean(axis=1))

    def track_world_m(self, landmark: Landmark) -> FloatArray:
        """One landmark in the pose model's own metres, (N, 3)."""
        return np.array([p.world_m[landmark] for p in self.poses])
