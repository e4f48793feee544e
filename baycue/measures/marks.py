"""What a measure shows on a picture: plain shapes, each with its part to play, not its colour."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from baycue.club.reading import ShaftReading
from baycue.measures.evidence import FloatArray, SwingEvidence
from baycue.measures.scale import address_poses
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance
from baycue.swing.hands import hand_sample


class Role(Enum):
    """The part a mark plays; whoever paints it chooses the colour."""

    MEASURED = "what is measured"
    FROM = "what it is measured from"
    LANE = "where it may be"


@dataclass(frozen=True, slots=True, eq=False)
class Line:
    """A line through (N, 2) points of the picture, px."""

    points_px: FloatArray
    role: Role
    dashed: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Dot:
    """A (2,) point of the picture, px."""

    place_px: FloatArray
    role: Role


@dataclass(frozen=True, slots=True, eq=False)
class Arc:
    """Part of a circle about a (2,) point, px, from one direction to another, deg.

    Directions in the picture: 0 to the right, +90 down.  From ``start_deg`` it goes the way
    that ``end_deg`` says, which may be less.
    """

    centre_px: FloatArray
    radius_px: float
    start_deg: float
    end_deg: float
    role: Role


@dataclass(frozen=True, slots=True, eq=False)
class Area:
    """What an outline (N, 2), px, encloses."""

    outline_px: FloatArray
    role: Role


Mark = Line | Dot | Arc | Area


@dataclass(frozen=True, slots=True)
class Sight:
    """One frame of a swing: the pose and the shaft as they lie in its picture, px.

    ``evidence`` is the whole swing's, of which the picture may be any.
    """

    pose: Pose
    shaft: ShaftReading | None
    evidence: SwingEvidence

    @property
    def stance(self) -> Stance:
        """Which side leads."""
        return self.evidence.stance

    @property
    def address(self) -> tuple[Pose, ...]:
        """The poses at address as they lie in their pictures, at least one."""
        return tuple(map(self.evidence.pose_as_filmed, address_poses(self.evidence)))

    @property
    def body_px(self) -> float:
        """Ankle to hip to shoulder in this picture, px: what the marks' sizes go by."""
        return hand_sample(self.pose).body_px


Drawing = Callable[[Sight], tuple[Mark, ...]]


def nothing(_sight: Sight) -> tuple[Mark, ...]:
    """What a measure of time alone shows."""
    return ()
