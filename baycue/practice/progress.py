"""Which targets have been met for long enough to be maintained or made harder.

The lower end of Wilson's interval for the last n swings must exceed what the coach set.  It is
looked at once, when a session ends: who looks after every swing finds, sooner or later, a run of
luck.  The program proposes and never changes a plan.
"""

from dataclasses import dataclass

from baycue.plan.plan import Plan
from baycue.plan.practice_fields import TooClose
from baycue.plan.practice_progress import ProgressRule
from baycue.plan.target import Target
from baycue.practice.history import PassHistory, bound_words, target_key
from baycue.practice.wilson import RateInterval, wilson_interval
from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class Progress:
    """How a target with a rule stands.

    ``passes`` of the last ``trials`` swings that count, never more than the rule's ``over``;
    ``interval``: None while there are fewer.  ``is_met``: whether the coach is proposed a change.
    """

    title: str
    bound: str
    rule: ProgressRule
    passes: int
    trials: int
    interval: RateInterval | None

    @property
    def is_met(self) -> bool:
        """Whether the lower limit exceeds what the coach set."""
        return self.interval is not None and self.interval.low > self.rule.pass_rate

    @property
    def words(self) -> str:
        """A sentence for screen, terminal and log."""
        rule = self.rule
        rate = f"{self.title} ({self.bound}): {self.passes} of {self.trials}"
        if self.interval is None:
            more = rule.over - self.trials
            return f"{rate}; {more} more swing{'s' if more > 1 else ''} until it can be told"
        low = (
            f"at least {100 * self.interval.low:.0f} % by the {100 * rule.confidence:g} % interval"
        )
        if not self.is_met:
            return f"{rate}, {low}; wanted: more than {100 * rule.pass_rate:g} %"
        return f"{rate}, {low}. Proposed to the coach: {self.proposal}"

    @property
    def proposal(self) -> str:
        """What a met target becomes."""
        if self.rule.harder is None:
            return "maintain it"
        return f"make it {bound_words_of(self.rule)}"


def progress_of(plan: Plan, history: PassHistory) -> tuple[Progress, ...]:
    """How every target with a rule stands, in the plan's order."""
    rules = plan.practice.progress if plan.practice else ()
    return tuple(_progress(plan, rule, history) for rule in rules)


def bound_words_of(rule: ProgressRule) -> str:
    """The harder bound in words."""
    assert rule.harder is not None
    return bound_words(rule.harder.bound)


def _progress(plan: Plan, rule: ProgressRule, history: PassHistory) -> Progress:
    target = _named(plan, rule.target)
    counted = _counted(history.outcomes(target_key(plan.student, target)), rule.too_close)
    newest = counted[-rule.over :]
    passes, trials = sum(newest), len(newest)
    enough = trials == rule.over
    interval = wilson_interval(passes, trials, rule.confidence) if enough else None
    return Progress(target.title, bound_words(target.bound), rule, passes, trials, interval)


def _counted(outcomes: tuple[Outcome, ...], too_close: TooClose) -> tuple[bool, ...]:
    """Whether each swing that counts passed."""
    if too_close is TooClose.LEFT_OUT:
        outcomes = tuple(o for o in outcomes if o is not Outcome.TOO_CLOSE)
    passing = {Outcome.PASS, Outcome.TOO_CLOSE} if too_close is TooClose.PASS else {Outcome.PASS}
    return tuple(outcome in passing for outcome in outcomes)


def _named(plan: Plan, title: str) -> Target:
    return next(t for t in plan.all_targets if t.title.lower() == title.lower())
