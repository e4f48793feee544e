"""Told only outside a band, or only inside it.

Feedback only outside a band of 15 % beat feedback on every trial, still so after seven days (Cruz
and others 2018, Motricidade 14:107).  Silence then means: well done.  So what could not be
measured is told either way, or its silence would be taken for praise.  A band may be too narrow:
a criterion of 4 ms for "good" harmed learning where 30 ms did not (Chiviacowsky, Wulf and
Lewthwaite 2012, Frontiers in Psychology 3:458).
"""

from dataclasses import dataclass

from baycue.practice.schedule import Answer, Band, Schedule, ScheduleKind, Settings, Telling
from baycue.verdict.verdict import Outcome, SwingVerdict, TargetVerdict


@dataclass(frozen=True, slots=True)
class OnlyOneSide:
    """Tells of swings outside the band, or of those inside."""

    outside: bool
    band: Band | None

    def after(self, verdict: SwingVerdict) -> tuple[Schedule, Answer]:
        """Told or not, by this verdict alone."""
        told = _unmeasured(verdict) or is_outside(verdict, self.band) == self.outside
        return self, Answer(Telling.TELL if told else Telling.WITHHOLD)

    def left_over(self) -> tuple[SwingVerdict, ...]:
        """Nothing."""
        return ()


def is_outside(verdict: SwingVerdict, band: Band | None) -> bool:
    """Whether a target that decides was surely missed, and by more than the band.

    A target in another unit than the band's goes by its own bound; too close to call is inside.
    """
    return any(_misses(target, band) for target in verdict.targets if not target.watch_only)


def _misses(target: TargetVerdict, band: Band | None) -> bool:
    if target.outcome is not Outcome.FAIL or target.measurement is None or target.margin is None:
        return False
    slack = band.value if band and band.unit is target.measurement.unit else 0.0
    return -target.margin > slack


def _unmeasured(verdict: SwingVerdict) -> bool:
    return any(t.measurement is None for t in verdict.targets if not t.watch_only)


def _outside(settings: Settings) -> Schedule:
    return OnlyOneSide(True, settings.band)


def _inside(settings: Settings) -> Schedule:
    return OnlyOneSide(False, settings.band)


KINDS = (
    ScheduleKind("only outside", frozenset({"band"}), _outside),
    ScheduleKind("only inside", frozenset({"band"}), _inside),
)
