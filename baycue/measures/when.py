"""When in a swing a measure is taken: what a target asks."""

from dataclasses import dataclass
from enum import Enum

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measurement import NotMeasuredError
from baycue.swing.swing import Checkpoint, CheckpointName


class Extreme(Enum):
    """Which of all values over a span; ``FURTHEST`` is the one furthest from zero, either way."""

    LARGEST = "largest"
    LEAST = "least"
    FURTHEST = "furthest"


@dataclass(frozen=True, slots=True)
class When:
    """The checkpoints a target names.

    None: the whole swing.  ``start`` is ``end``: the value there.  Two: the change from the
    one to the other or, with ``extreme``, that value of all between them, counted from the
    value at ``against`` if that is given.
    """

    start: CheckpointName | None = None
    end: CheckpointName | None = None
    extreme: Extreme | None = None
    against: CheckpointName | None = None

    @property
    def names(self) -> tuple[CheckpointName, ...]:
        """Every checkpoint that must be known."""
        return tuple(name for name in (self.start, self.end, self.against) if name)


def checkpoint_of(evidence: SwingEvidence, name: CheckpointName | None) -> Checkpoint:
    """The checkpoint a target names, or NotMeasuredError if this swing has none."""
    found = evidence.swing.at(name) if name else None
    if found is None:
        raise NotMeasuredError(f"{name.value if name else 'the moment'} was not found")
    return found
