"""Nothing after each swing; after every n swings, all of them together.

A summary is delayed feedback of a kind, and a delay of seconds served retention better than an
instantaneous answer (Swinnen and others 1990, Journal of Experimental Psychology: Learning,
Memory, and Cognition 16:706).  How many swings a summary should span is the coach's own judgement;
no source was found for swings.
"""

from dataclasses import dataclass, replace

from baycue.practice.schedule import Answer, Schedule, ScheduleKind, Settings, Telling
from baycue.verdict.verdict import SwingVerdict


@dataclass(frozen=True, slots=True)
class SummedUp:
    """Gathers verdicts until there are ``every`` of them."""

    every: int
    gathered: tuple[SwingVerdict, ...] = ()

    def after(self, verdict: SwingVerdict) -> tuple[Schedule, Answer]:
        """Kept, or told with those before it."""
        gathered = (*self.gathered, verdict)
        if len(gathered) < self.every:
            return replace(self, gathered=gathered), Answer(Telling.WITHHOLD)
        return replace(self, gathered=()), Answer(Telling.SUM_UP, gathered)

    def left_over(self) -> tuple[SwingVerdict, ...]:
        """Those that wait for company which will not come."""
        return self.gathered


def _start(settings: Settings) -> Schedule:
    return SummedUp(settings.every)


KINDS = (ScheduleKind("summary", frozenset({"every"}), _start),)
