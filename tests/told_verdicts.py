"""Made-up verdicts for tests of what is told of them."""

from baycue.measures.measurement import Measurement, Unit
from baycue.verdict.verdict import Outcome, SwingVerdict, TargetVerdict

KNEE = "knee past ankle at P6"


def told_target(
    outcome: Outcome,
    margin: float | None,
    unit: Unit = Unit.METRE,
    watch_only: bool = False,
    title: str = KNEE,
) -> TargetVerdict:
    """A target's answer; a margin of None for one that could not be measured."""
    measured = None if margin is None else Measurement("knee past ankle", 0.0, 0.01, unit)
    return TargetVerdict(title, outcome, measured, margin, "a reason", watch_only=watch_only)


def told_swing(number: int, outcome: Outcome, margin: float | None = None) -> SwingVerdict:
    """A swing with one target; the margin is 4 cm on the side of the outcome if not given."""
    usual = {Outcome.PASS: 0.04, Outcome.FAIL: -0.04, Outcome.TOO_CLOSE: 0.001}[outcome]
    target = told_target(outcome, usual if margin is None else margin)
    return SwingVerdict(number, outcome, (target,), "a reason")
