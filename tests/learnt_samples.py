"""Findings of invented swings, for what is said and proposed of them."""

from baycue.learn.asked import Asked, asked_of
from baycue.learn.finding import Finding, Sample, compared
from baycue.plan.document import Data, read_document
from baycue.plan.load import parse_plan
from baycue.plan.plan import Plan

LIKE = (
    "student: Heron\nhandedness: right\nstature: 178 cm\nview: face-on\n"
    "notes: >\n  Two lines\n  of notes.\n\n  And more.\n"
    "targets:\n"
    "  - {measure: knee past ankle, at: P5, at_least: 5 cm, name: knee early}\n"
)
GOOD_KNEE = (0.052, 0.060, 0.055, 0.048, 0.063)
POOR_KNEE = (0.010, 0.021, -0.004, 0.015, 0.012)


def plan_and_data() -> tuple[Plan, dict[str, Data]]:
    """The plan that a proposal is made like, and its data as written."""
    data = read_document(LIKE).data
    assert isinstance(data, dict)
    return parse_plan(LIKE, "like.yaml"), data


def asked(name: str) -> Asked:
    """One measure as it is asked."""
    plan, data = plan_and_data()
    (found,) = asked_of(plan, data["targets"], [name])
    return found


def sample(*values: float, sigma: float = 0.002, missing: int = 0) -> Sample:
    """Some values of one give or take."""
    return Sample(values, (sigma,) * len(values), missing)


def knee(good: Sample | None = None, poor: Sample | None = None) -> Finding:
    """The knee in good and poor swings."""
    samples = good or sample(*GOOD_KNEE), sample(*POOR_KNEE) if poor is None else poor
    (found,) = compared([(asked("knee past ankle"), *samples)])
    return found
