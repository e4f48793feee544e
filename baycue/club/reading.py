"""The shaft's direction in one frame."""

from dataclasses import dataclass
from enum import Enum


class Evidence(Enum):
    """Where a shaft direction comes from."""

    PICTURE = "seen in the picture"
    PATH = "between pictures, from the path before and after"


@dataclass(frozen=True, slots=True)
class ShaftReading:
    """Which way the shaft points from the hands to the club head, in the picture.

    ``angle_deg``: 0 straight down, +90 toward the target (whichever side of the picture
    that is), unwrapped through the swing so that neighbours never jump by a turn.
    ``sigma_deg``: one-sigma spread.  ``sweep_deg``: how far the shaft turned while the
    shutter was open, read from the blur's own width; 0 where unknown.
    """

    frame_index: int
    stamp_ns: int
    angle_deg: float
    sigma_deg: float
    sweep_deg: float
    evidence: Evidence
