"""Answers to one invented target, for what counts them."""

from baycue.coach_report.figures import TargetFigures, figures_of
from baycue.coach_report.record import (
    PracticeAnswer,
    PracticeRecord,
    PracticeSession,
    PracticeSwing,
)
from baycue.plan.target import Target
from baycue.verdict.verdict import Outcome
from tests.kept_practice import FIRST_DAY

PASS, FAIL, CLOSE = Outcome.PASS, Outcome.FAIL, Outcome.TOO_CLOSE
KNEE = Target.model_validate({"measure": "knee past ankle", "at": "P6", "at_least": "5 cm"})
MARGIN = {PASS: 0.02, FAIL: -0.02, CLOSE: 0.001}


def session(*outcomes: Outcome, probe: bool = False) -> PracticeSession:
    swings = tuple(
        PracticeSwing(n, o, (PracticeAnswer(KNEE, o, 0.05 + MARGIN[o] * n, MARGIN[o] * n),), probe)
        for n, o in enumerate(outcomes, 1)
    )
    return PracticeSession(FIRST_DAY, "a recording", swings)


def knee(*sessions: PracticeSession) -> TargetFigures:
    (figures,) = figures_of(PracticeRecord("Heron", sessions))
    return figures
