"""One file a schedule of feedback, each with what speaks for it."""

import importlib
import pkgutil
from functools import cache

from baycue.practice.schedule import ScheduleKind


@cache
def schedule_kinds() -> tuple[ScheduleKind, ...]:
    """Every kind: each module here that defines ``KIND`` or ``KINDS``, in order of word."""
    modules = [
        importlib.import_module(f"{__name__}.{info.name}")
        for info in pkgutil.iter_modules(__path__)
    ]
    found = [k for m in modules for k in getattr(m, "KINDS", ())]
    return tuple(sorted(found, key=lambda kind: kind.word))


def schedule_named(word: str) -> ScheduleKind | None:
    """The kind a plan names, or None."""
    return next((kind for kind in schedule_kinds() if kind.word == word), None)
