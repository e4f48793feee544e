"""Every drill there is: each module of ``drills`` that defines ``DRILL``."""

from functools import cache

import baycue.practice.drills
from baycue.discovered import discovered
from baycue.practice.drill import Drill


@cache
def drills() -> tuple[Drill, ...]:
    """All drills, in order of name."""
    return tuple(sorted(discovered(baycue.practice.drills, "DRILL"), key=lambda drill: drill.name))


def drill_named(name: str) -> Drill | None:
    """The drill a plan names, or None."""
    return next((d for d in drills() if d.name == name), None)
