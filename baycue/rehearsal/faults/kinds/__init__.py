"""One file a family of faults; ``FAULTS`` in each is found by itself."""

import sys
from functools import cache

from baycue.discovered import discovered
from baycue.rehearsal.faults.fault import Fault


@cache
def faults() -> tuple[Fault, ...]:
    """Every fault, family by family."""
    family = discovered(sys.modules[__name__], "FAULTS")
    return tuple(fault for faults in family for fault in faults)
