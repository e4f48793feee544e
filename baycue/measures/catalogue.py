"""Every measure there is: each module of this room that defines ``MEASURE``."""

import importlib
import pkgutil
from functools import cache

import baycue.measures
from baycue.measures.measure import Measure


@cache
def measures() -> tuple[Measure, ...]:
    """All measures, in order of name."""
    modules = (
        importlib.import_module(f"baycue.measures.{info.name}")
        for info in pkgutil.iter_modules(baycue.measures.__path__)
    )
    found = [m.MEASURE for m in modules if hasattr(m, "MEASURE")]
    return tuple(sorted(found, key=lambda measure: measure.name))


def measure_named(name: str) -> Measure | None:
    """The measure a plan names, or None."""
    return next((m for m in measures() if m.name == name), None)
