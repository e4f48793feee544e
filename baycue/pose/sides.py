"""Lead and trail: which of the pose model's sides is nearer the target."""

from dataclasses import dataclass

from baycue.plan.stance import Handedness
from baycue.pose.pose import Landmark


@dataclass(frozen=True, slots=True)
class Side:
    """One side's joints."""

    shoulder: Landmark
    elbow: Landmark
    wrist: Landmark
    hip: Landmark
    knee: Landmark
    ankle: Landmark
    heel: Landmark
    toe: Landmark


LEFT = Side(
    Landmark.LEFT_SHOULDER,
    Landmark.LEFT_ELBOW,
    Landmark.LEFT_WRIST,
    Landmark.LEFT_HIP,
    Landmark.LEFT_KNEE,
    Landmark.LEFT_ANKLE,
    Landmark.LEFT_HEEL,
    Landmark.LEFT_FOOT_INDEX,
)
RIGHT = Side(
    Landmark.RIGHT_SHOULDER,
    Landmark.RIGHT_ELBOW,
    Landmark.RIGHT_WRIST,
    Landmark.RIGHT_HIP,
    Landmark.RIGHT_KNEE,
    Landmark.RIGHT_ANKLE,
    Landmark.RIGHT_HEEL,
    Landmark.RIGHT_FOOT_INDEX,
)


@dataclass(frozen=True, slots=True)
class Stance:
    """The golfer as the picture shows them.

    A mirrored picture turns a right-hander into a left-hander for the pose model and for
    every pixel, so one fact covers both: whether the left side leads in the picture.
    Face-on, that is also the side of the picture that the target is on.
    """

    left_leads: bool

    @property
    def lead(self) -> Side:
        """The joints nearer the target."""
        return LEFT if self.left_leads else RIGHT

    @property
    def trail(self) -> Side:
        """The other joints."""
        return RIGHT if self.left_leads else LEFT

    @property
    def toward_target(self) -> int:
        """Face-on, the sign of picture x toward the target: a left lead faces right."""
        return 1 if self.left_leads else -1


def stance_in_picture(handedness: Handedness, mirrored: bool) -> Stance:
    """How a golfer of that handedness appears."""
    return Stance((handedness is Handedness.RIGHT) != mirrored)
