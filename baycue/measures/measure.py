"""What a measure is."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from baycue.measures.evidence import SwingEvidence
from baycue.measures.marks import Drawing, nothing
from baycue.measures.measurement import Measurement, Unit
from baycue.measures.take import Taken, take
from baycue.measures.track import Track
from baycue.measures.when import When
from baycue.plan.stance import View
from baycue.swing.swing import CheckpointName


class Zero(Enum):
    """What a value is counted from."""

    OWN = "a zero of its own"
    ADDRESS = "where it was at address"


class Way(Enum):
    """How what is drawn moves as the value grows, which tells where a bound lies in the picture.

    Of the bar that shows the value: its end moves along the target line, up, or away from its
    beginning; or it turns about its beginning, as seen with the target to the right.
    """

    UNSEEN = "the picture does not show it"
    ALONG = "toward the target"
    UP = "up"
    OUT = "further out"
    CLOCKWISE = "turns clockwise"
    ANTICLOCKWISE = "turns anticlockwise"


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure's name as plans write it, what it means, and what it is made of.

    ``positive`` says what a positive value means.  ``track`` tells the quantity at each moment
    of a swing; a measure of the swing as a whole has ``whole`` instead, and no moment.  Either
    raises NotMeasuredError when the swing does not show what it needs.  ``draw`` shows on a
    picture what is measured, and ``way`` how that goes with the value.  ``doubt``: why it is not
    to be trusted from one camera; empty if it is.
    """

    name: str
    definition: str
    positive: str
    unit: Unit
    views: frozenset[View]
    track: Callable[[SwingEvidence], Track] | None = None
    whole: Callable[[SwingEvidence], Taken] | None = None
    zero: Zero = Zero.OWN
    draw: Drawing = nothing
    way: Way = Way.UNSEEN
    doubt: str = ""

    def take(self, evidence: SwingEvidence, when: When) -> Measurement:
        """Take it on a swing; NotMeasuredError says why it cannot be."""
        if self.track is not None:
            taken = take(evidence, self.track(evidence), self.asked(when))
        else:
            assert self.whole is not None, "a measure has a track or is of the whole swing"
            taken = self.whole(evidence)
        return Measurement(self.name, taken.value, taken.sigma, self.unit)

    def asked(self, when: When) -> When:
        """What ``when`` means for this measure, which may be counted from address."""
        if self.zero is Zero.OWN or when.start is None:
            return when
        if when.extreme is None:
            start = CheckpointName.ADDRESS if when.start is when.end else when.start
            return When(start, when.end)
        return When(when.start, when.end, when.extreme, when.against or CheckpointName.ADDRESS)
