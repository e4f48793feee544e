"""What a target asks of a measure, in the measure's own unit."""

from dataclasses import dataclass

from baycue.measures.when import When


@dataclass(frozen=True, slots=True)
class Allowed:
    """The values that pass, None where there is no end; and when in the swing it is asked."""

    low: float | None
    high: float | None
    when: When
