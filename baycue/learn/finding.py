"""What the swings say of one measure: values, spread, and whether good differ from poor."""

from collections.abc import Sequence
from dataclasses import dataclass

from baycue.learn.asked import Asked
from baycue.learn.separation import CONVENTION, Separation, holm, separation_of
from baycue.learn.spread import Spread, spread_of
from baycue.measures.evidence import SwingEvidence
from baycue.measures.figures import doubt_of
from baycue.measures.measurement import NotMeasuredError


@dataclass(frozen=True, slots=True)
class Sample:
    """Values of one measure in the held unit, with their one-sigmas; ``missing``: not measured."""

    values: tuple[float, ...] = ()
    sigmas: tuple[float, ...] = ()
    missing: int = 0

    @property
    def spread(self) -> Spread | None:
        """None if nothing was measured."""
        return spread_of(self.values)


@dataclass(frozen=True, slots=True)
class Finding:
    """One measure in good and in poor swings.

    ``separation``: None without poor swings.  ``adjusted_p``: its p, adjusted for the number of
    measures looked at.
    """

    asked: Asked
    good: Sample
    poor: Sample
    separation: Separation | None = None
    adjusted_p: float = 1.0

    @property
    def doubt(self) -> str:
        """Why one camera is not to be trusted with the measure; empty if it is."""
        measure = self.asked.measure
        return measure.doubt or doubt_of(measure.name, self.asked.view)

    @property
    def differs(self) -> bool:
        """Whether good and poor differ by more than chance would explain."""
        return self.separation is not None and self.adjusted_p <= CONVENTION

    @property
    def separates(self) -> bool:
        """Whether they differ, or do not overlap, which few swings may show by chance."""
        found = self.separation
        return found is not None and (self.differs or found.strength == 1.0)


def sample_of(swings: Sequence[SwingEvidence], asked: Asked) -> Sample:
    """Take one measure on every swing that shows it."""
    taken = []
    for evidence in swings:
        try:
            taken.append(asked.measure.take(evidence, asked.target.when))
        except NotMeasuredError:
            continue
    return Sample(
        tuple(m.value for m in taken), tuple(m.sigma for m in taken), len(swings) - len(taken)
    )


def findings(
    asked: Sequence[Asked], good: Sequence[SwingEvidence], poor: Sequence[SwingEvidence]
) -> tuple[Finding, ...]:
    """One finding for each, those that separate best first, then in the order asked."""
    return compared([(a, sample_of(good, a), sample_of(poor, a)) for a in asked])


def compared(samples: Sequence[tuple[Asked, Sample, Sample]]) -> tuple[Finding, ...]:
    """The same from samples already taken."""
    found = [separation_of(good.values, poor.values) for _, good, poor in samples]
    told = [s.p for s in found if s is not None]
    adjusted = iter(holm(told))
    rows = [
        Finding(asked, good, poor, s, next(adjusted) if s is not None else 1.0)
        for (asked, good, poor), s in zip(samples, found, strict=True)
    ]
    return tuple(sorted(rows, key=lambda row: -(row.separation.strength if row.separation else 0)))
