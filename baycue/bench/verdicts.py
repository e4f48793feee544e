"""Are the answers right?  Many coaches' bounds are tried on every swing's stated values."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np

from baycue.bench.coach import Asked
from baycue.bench.record import Record
from baycue.measures.measurement import Measurement
from baycue.plan.target import Target
from baycue.verdict.judge import judge_target
from baycue.verdict.verdict import Outcome

BOUNDS_A_SWING = 20


@dataclass(frozen=True, slots=True)
class Verdicts:
    """Answers over all swings and bounds.

    ``right_share``: of those called.  ``clear`` are those with a true margin over
    ``Asked.clear``; ``clear_too_close_share`` of them were answered "too close to call".
    """

    answers: int
    called: int
    right_share: float
    clear: int
    clear_too_close_share: float


@dataclass(frozen=True, slots=True)
class _Answer:
    outcome: Outcome
    true_margin: float

    @property
    def right(self) -> bool:
        return (self.outcome is Outcome.PASS) == (self.true_margin >= 0)


def verdicts_on(asked: Asked, records: Sequence[Record], seed: int = 1) -> Verdicts:
    """Judge every swing against bounds drawn without regard to it."""
    answers = [a for record in records for a in _answers(asked, record, seed)]
    called = [a for a in answers if a.outcome is not Outcome.TOO_CLOSE]
    clear = [a for a in answers if abs(a.true_margin) > asked.clear]
    undecided = [a for a in clear if a.outcome is Outcome.TOO_CLOSE]
    return Verdicts(
        len(answers),
        len(called),
        _share(sum(a.right for a in called), len(called)),
        len(clear),
        _share(len(undecided), len(clear)),
    )


def _answers(asked: Asked, record: Record, seed: int) -> Iterator[_Answer]:
    """The product's own judge on one swing's stated value, against each bound."""
    stated = record.seen.measures.get(asked.name) if record.seen else None
    measurement = stated and Measurement(
        asked.target["measure"], stated.value, stated.sigma, asked.unit
    )
    rng = np.random.default_rng([seed, record.draw.number])
    for bound in rng.uniform(*asked.bounds, BOUNDS_A_SWING):
        over = asked.truth(record.true) - float(bound)
        outcome = judge_target(asked_target(asked, float(bound)), measurement or None).outcome
        yield _Answer(outcome, over if asked.at_least else -over)


def asked_target(asked: Asked, bound: float) -> Target:
    """The target with a bound, as from a plan."""
    key = "at_least" if asked.at_least else "at_most"
    return Target.model_validate({**asked.target, key: f"{bound:.6f} {asked.sign}".strip()})


def _share(part: int, whole: int) -> float:
    return part / whole if whole else float("nan")
