"""Every measure there is: each module of this room that defines ``MEASURE``."""

from functools import cache

import baycue.measures
from baycue.discovered import discovered
from baycue.measures.measure import Measure


@cache
def measures() -> tuple[Measure, ...]:
    """All measures, in order of name."""
    return tuple(sorted(discovered(baycue.measures, "MEASURE"), key=lambda measure: measure.name))


def measure_named(name: str) -> Measure | None:
    """The measure a plan names, or None."""
    return next((m for m in measures() if m.name == name), None)
