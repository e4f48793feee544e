"""One measured value."""

from dataclasses import dataclass
from enum import Enum


class Unit(Enum):
    """The unit a measure is held in; plans may write lengths in cm, mm or in, times in ms."""

    METRE = "m"
    RATIO = "ratio"
    DEGREE = "deg"
    SECOND = "s"


class NotMeasuredError(Exception):
    """A measure cannot be taken on this swing; the text says why."""


@dataclass(frozen=True, slots=True)
class Measurement:
    """A value with its one-sigma, which covers landmark noise, timing and scale."""

    measure: str
    value: float
    sigma: float
    unit: Unit
