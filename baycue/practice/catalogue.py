"""Every drill there is: each module of ``drills`` that defines ``DRILL``."""

import importlib
import pkgutil
from functools import cache

import baycue.practice.drills
from baycue.practice.drill import Drill


@cache
def drills() -> tuple[Drill, ...]:
    """All drills, in order of name."""
    modules = (
        importlib.import_module(f"baycue.practice.drills.{info.name}")
        for info in pkgutil.iter_modules(baycue.practice.drills.__path__)
    )
    found = [m.DRILL for m in modules if hasattr(m, "DRILL")]
    return tuple(sorted(found, key=lambda drill: drill.name))


def drill_named(name: str) -> Drill | None:
    """The drill a plan names, or None."""
    return next((d for d in drills() if d.name == name), None)
