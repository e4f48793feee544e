"""What the golfer is told about one swing."""

from dataclasses import dataclass
from enum import Enum

from baycue.measures.measurement import Measurement


class Outcome(Enum):
    """The three answers."""

    PASS = "pass"
    FAIL = "fail"
    TOO_CLOSE = "too close to call"


@dataclass(frozen=True, slots=True)
class TargetVerdict:
    """One target's answer.

    ``margin`` is in the measurement's unit, positive on the passing side of the bound.
    ``reason`` is a plain sentence in the coach's units.
    """

    target_name: str
    outcome: Outcome
    measurement: Measurement | None
    margin: float | None
    reason: str


@dataclass(frozen=True, slots=True)
class SwingVerdict:
    """The whole: pass only if every target passes; fail if any fails."""

    swing_number: int
    outcome: Outcome
    targets: tuple[TargetVerdict, ...]
    reason: str
