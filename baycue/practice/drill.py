"""What a drill is."""

from dataclasses import dataclass
from enum import Enum


class Ends(Enum):
    """What makes one go at a drill complete."""

    STRIKE = "with the club through the ball"
    GROUND = "with the club in the ground"
    HOLD = "with the club held still"


@dataclass(frozen=True, slots=True)
class Drill:
    """A way to practise.

    ``told``: what the golfer does, in a sentence or two for the big screen.  ``cautions``: what
    this drill is dangerous for besides what every swing is; the facility's rules, local codes and
    licensed professionals come first.  ``has_ball``: whether a ball is struck.
    """

    name: str
    ends: Ends
    told: str
    cautions: tuple[str, ...]
    has_ball: bool


EVERY_SWING_CAUTIONS = (
    "Nobody, no screen and no camera within the club's reach.",
    "Stop if back, elbow or wrist hurts, and ask a doctor or physiotherapist.",
    "The facility's rules, local codes and your own coach come first.",
)
"""Said with every drill."""
