"""What is kept of one swing: what was drawn, what is true, what the program said."""

from dataclasses import dataclass

from pydantic import TypeAdapter

from baycue.bench.population import Draw
from baycue.synthetic.truth import TrueSwing


@dataclass(frozen=True, slots=True)
class Stated:
    """A value as the program stated it, with its one-sigma."""

    value: float
    sigma: float


@dataclass(frozen=True, slots=True)
class Seen:
    """What the program said of the swing.

    ``checkpoints_s`` by checkpoint's name, seconds from the clip's start; ``measures`` by
    the name in ``coach.ASKED``.  Those it did not find are missing.
    """

    checkpoints_s: dict[str, Stated]
    measures: dict[str, Stated]
    shaft_seen_share: float
    decided_after_impact_s: float | None


@dataclass(frozen=True, slots=True)
class Record:
    """One swing of the bench.

    ``seen`` is None if no swing was found; ``error`` says why the recording was refused.
    """

    draw: Draw
    true: TrueSwing
    swings_found: int
    seen: Seen | None
    error: str | None
    render_s: float
    score_s: float


_ADAPTER = TypeAdapter(Record)


def to_line(record: Record) -> str:
    """The record as one line of JSON."""
    return _ADAPTER.dump_json(record).decode()


def from_line(line: str) -> Record:
    """The record of a line; raises ValueError if it is none."""
    return _ADAPTER.validate_json(line)
