"""Schedules that treat every swing alike: all told, told if asked, or none.

Every swing is what who hits balls expects.  Told when asked leaves the choice to the golfer.  A
silent block is a probe: what stays when nothing is told is what has been learned, and it is why
Winstein and Schmidt 1990 (Journal of Experimental Psychology: Learning, Memory, and Cognition
16:677) measured a day later and without feedback.
"""

from dataclasses import dataclass

from baycue.practice.schedule import Answer, Schedule, ScheduleKind, Telling
from baycue.verdict.verdict import SwingVerdict


@dataclass(frozen=True, slots=True)
class Alike:
    """The same for every swing."""

    telling: Telling

    def after(self, verdict: SwingVerdict) -> tuple[Schedule, Answer]:
        """Always so."""
        return self, Answer(self.telling)

    def left_over(self) -> tuple[SwingVerdict, ...]:
        """Nothing."""
        return ()


EVERY_SWING = Alike(Telling.TELL)
SILENT = "silent"

KINDS = (
    ScheduleKind("every swing", frozenset(), lambda settings: EVERY_SWING),
    ScheduleKind("on request", frozenset(), lambda settings: Alike(Telling.ASK)),
    ScheduleKind(SILENT, frozenset(), lambda settings: Alike(Telling.WITHHOLD)),
)
