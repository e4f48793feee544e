"""What the golfer is told about one swing."""

from dataclasses import dataclass
from enum import Enum

from baycue.measures.allowed import Allowed
from baycue.measures.measurement import Measurement


class Outcome(Enum):
    """The three answers."""

    PASS = "pass"
    FAIL = "fail"
    TOO_CLOSE = "too close to call"


@dataclass(frozen=True, slots=True)
class Said:
    """The figures of one answer in the coach's units, for screens and tables.

    ``margin`` carries its own words, such as ``1.9 cm short``.  ``end``: for a range, the end
    that the margin counts from; else empty.
    """

    value: str
    bound: str
    margin: str
    give_or_take: str
    end: str = ""

    @property
    def margin_and_end(self) -> str:
        """The margin that says by itself what it counts from: ``0.38 above 2.50``."""
        if not self.end:
            return self.margin
        link = " of" if self.margin.endswith("short") else ""
        return f"{self.margin}{link} {self.end}"


@dataclass(frozen=True, slots=True)
class TargetVerdict:
    """One target's answer.

    ``margin`` is in the measurement's unit, positive on the passing side of the bound, which
    the coach's tolerance moves out.
    ``reason`` is a plain sentence in the coach's units.  A target that could not be measured
    has no measurement, margin or ``said``.  ``allowed``: which values pass, and when it was asked;
    None too for one kept before that was noted.  ``watch_only`` answers do not decide the swing.
    ``cue`` is the coach's phrase for the movement, or empty.  ``band``: within how many sigmas of
    the bound it was too close to call; None for one kept before that was noted.
    """

    target_name: str
    outcome: Outcome
    measurement: Measurement | None
    margin: float | None
    reason: str
    said: Said | None = None
    cue: str = ""
    watch_only: bool = False
    allowed: Allowed | None = None
    band: float | None = None


@dataclass(frozen=True, slots=True)
class SwingVerdict:
    """The whole, over the targets that are not watch-only.

    Pass only if every one passes; fail if any fails; too close to call otherwise.
    """

    swing_number: int
    outcome: Outcome
    targets: tuple[TargetVerdict, ...]
    reason: str
