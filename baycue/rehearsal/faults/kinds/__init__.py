"""One file a family of faults; ``FAULTS`` in each is found by itself."""

import importlib
import pkgutil
from functools import cache

from baycue.rehearsal.faults.fault import Fault


@cache
def faults() -> tuple[Fault, ...]:
    """Every fault, family by family."""
    modules = [
        importlib.import_module(f"{__name__}.{m.name}") for m in pkgutil.iter_modules(__path__)
    ]
    return tuple(fault for module in modules for fault in getattr(module, "FAULTS", ()))
