"""What a student has passed so far, from the log, for the plans' progress rules."""

from functools import cache

from baycue.errors import PlanError
from baycue.keep.log import SwingLog
from baycue.keep.pages import QUERIES
from baycue.plan.load import parse_plan
from baycue.plan.target import Target
from baycue.practice.history import RememberedPasses, target_key
from baycue.verdict.margin import margin_to
from baycue.verdict.verdict import Outcome

_SAME = 1e-6
"""Metres, degrees or whatever a measure is held in: the log keeps values as they were."""


def passed_before(log: SwingLog, student: str, alias: str | None = None) -> RememberedPasses:
    """Every answer that was measured, oldest first, by target and bound.

    ``alias``: the name that the student is kept under, if not the plan's.
    The bound is that of the plan as it was; one that does not agree with the margin kept, or a plan
    that this program can no longer read, is left out.
    """
    kept = []
    for row in log.rows(QUERIES["pass history"], alias or student):
        for target in _targets(row["text"]):
            if target.title == row["target"] and _judged_it(target, row["value"], row["margin"]):
                kept.append((target_key(student, target), Outcome(row["outcome"])))
                break
    return RememberedPasses(tuple(kept))


def _judged_it(target: Target, value: float, margin: float) -> bool:
    return abs(margin_to(target.bound, value).to_spare - margin) < _SAME


@cache
def _targets(text: str) -> tuple[Target, ...]:
    """All targets of a plan as it was written, its drills' own too."""
    try:
        return parse_plan(text, "a kept plan").all_targets
    except PlanError:
        return ()
