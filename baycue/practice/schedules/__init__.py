"""One file a schedule of feedback, each with what speaks for it."""

import sys
from functools import cache

from baycue.discovered import discovered
from baycue.practice.schedule import ScheduleKind


@cache
def schedule_kinds() -> tuple[ScheduleKind, ...]:
    """Every kind: each module here that defines ``KINDS``, in order of word."""
    found = [kind for kinds in discovered(sys.modules[__name__], "KINDS") for kind in kinds]
    return tuple(sorted(found, key=lambda kind: kind.word))


def schedule_named(word: str) -> ScheduleKind | None:
    """The kind a plan names, or None."""
    return next((kind for kind in schedule_kinds() if kind.word == word), None)
