"""What the progress rule needs to know of earlier sessions."""

from dataclasses import dataclass
from typing import Protocol

from baycue.plan.target import Bound, Target
from baycue.plan.units import Quantity, say
from baycue.verdict.verdict import Outcome, SwingVerdict


@dataclass(frozen=True, slots=True)
class TargetKey:
    """A target of a student with its bound: another bound is another target, with no history."""

    student: str
    title: str
    bound: str


class PassHistory(Protocol):
    """The outcomes of earlier swings, from wherever they are kept."""

    def outcomes(self, key: TargetKey) -> tuple[Outcome, ...]:
        """Of every swing judged by this target and bound, oldest first.

        Swings on which it could not be measured are left out.
        """


def target_key(student: str, target: Target) -> TargetKey:
    """What a target's outcomes are kept under."""
    return TargetKey(student, target.title, bound_words(target.bound))


def bound_words(bound: Bound) -> str:
    """``at least 5 cm``, always the same for the same bound, tolerance and unit."""
    low, high = bound.low, bound.high
    words = f"at least {_exact(low)}" if low else f"at most {_exact(high)}" if high else ""
    if low and high:
        words = f"between {_exact(low)} and {_exact(high)}"
    return f"{words}, tolerance {_exact(bound.tolerance)}" if bound.tolerance else words


def _exact(quantity: Quantity) -> str:
    number, _, unit = say(quantity.value, quantity.written, 6).partition(" ")
    return f"{float(number):g} {unit}".strip()


@dataclass(frozen=True, slots=True)
class RememberedPasses:
    """A history held in memory; ``with_swing`` adds to it."""

    kept: tuple[tuple[TargetKey, Outcome], ...] = ()

    def outcomes(self, key: TargetKey) -> tuple[Outcome, ...]:
        """As ``PassHistory`` asks."""
        return tuple(outcome for each, outcome in self.kept if each == key)

    def with_swing(
        self, student: str, targets: tuple[Target, ...], verdict: SwingVerdict
    ) -> "RememberedPasses":
        """One swing on; an answer to none of ``targets`` was judged by another plan."""
        new = tuple(
            (target_key(student, target), answer.outcome)
            for answer in verdict.targets
            for target in targets
            if target.title == answer.target_name and answer.measurement is not None
        )
        return RememberedPasses((*self.kept, *new))


@dataclass(frozen=True, slots=True)
class OneAfterAnother:
    """An earlier history and a later one as one."""

    earlier: PassHistory
    later: PassHistory

    def outcomes(self, key: TargetKey) -> tuple[Outcome, ...]:
        """As ``PassHistory`` asks."""
        return (*self.earlier.outcomes(key), *self.later.outcomes(key))
