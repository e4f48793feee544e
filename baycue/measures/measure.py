"""What a measure is, and the request a target makes of it."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum

from baycue.measures.evidence import SwingEvidence
from baycue.measures.measurement import Measurement, Unit
from baycue.plan.stance import View
from baycue.swing.swing import Checkpoint, CheckpointName


class Moment(Enum):
    """When a measure is taken."""

    AT = "at one checkpoint"
    CHANGE = "change between two checkpoints"
    WHOLE = "over the whole swing"


class NotMeasuredError(Exception):
    """A measure cannot be taken on this swing; the text says why."""


@dataclass(frozen=True, slots=True)
class When:
    """The checkpoints a target names: one for AT (``start`` is ``end``), two for CHANGE.

    WHOLE has none.
    """

    start: CheckpointName | None = None
    end: CheckpointName | None = None


@dataclass(frozen=True, slots=True)
class Measure:
    """A measure's name as plans write it, what it means, and the function that takes it.

    ``take`` raises NotMeasuredError when the swing does not show what it needs.
    """

    name: str
    definition: str
    unit: Unit
    moment: Moment
    views: frozenset[View]
    take: Callable[[SwingEvidence, When], Measurement]


def checkpoint_of(evidence: SwingEvidence, name: CheckpointName | None) -> Checkpoint:
    """The checkpoint a target names, or NotMeasuredError if this swing has none."""
    found = evidence.swing.at(name) if name else None
    if found is None:
        raise NotMeasuredError(f"{name.value if name else 'the moment'} was not found")
    return found
