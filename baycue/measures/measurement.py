"""One measured value."""

from dataclasses import dataclass
from enum import Enum


class Unit(Enum):
    """The unit a measure is held in; plans may write lengths in cm, mm or in."""

    METRE = "m"
    RATIO = "ratio"
    DEGREE = "deg"


@dataclass(frozen=True, slots=True)
class Measurement:
    """A value with its one-sigma, which covers landmark noise, timing and scale."""

    measure: str
    value: float
    sigma: float
    unit: Unit
