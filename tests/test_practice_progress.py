"""When a target is proposed to be maintained or made harder."""

from collections.abc import Sequence

import pytest
from statsmodels.stats.proportion import proportion_confint

from baycue.practice.history import (
    OneAfterAnother,
    PassHistory,
    RememberedPasses,
    TargetKey,
    target_key,
)
from baycue.practice.progress import Progress, progress_of
from baycue.verdict.verdict import Outcome, SwingVerdict
from tests.practice_plans import practice_plan
from tests.told_verdicts import told_swing, told_target

PASS, FAIL, TOO_CLOSE = Outcome.PASS, Outcome.FAIL, Outcome.TOO_CLOSE
KNEE = TargetKey("Heron", "knee past ankle at P6", "at least 5 cm")
SECTION = """\
  blocks: [{{drills: [{{drill: full swing, count: 30}}]}}]
  progress:
    - {{target: Knee past ankle at P6, pass_rate: 70 %, over: {over}{more}}}
"""


def standing(history: PassHistory, over: int = 30, more: str = "") -> Progress:
    (progress,) = progress_of(practice_plan(SECTION.format(over=over, more=more)), history)
    return progress


def kept(outcomes: Sequence[Outcome], key: TargetKey = KNEE) -> RememberedPasses:
    return RememberedPasses(tuple((key, outcome) for outcome in outcomes))


def test_just_enough_passes_are_enough() -> None:
    # 26 of 30: lower limit 0.703; 25 of 30: 0.664 (statsmodels, below).
    assert proportion_confint(26, 30, method="wilson")[0] == pytest.approx(0.7032, abs=1e-4)
    enough = standing(kept([FAIL] * 4 + [PASS] * 26))
    assert enough.is_met
    assert enough.interval is not None
    assert enough.interval.low == pytest.approx(proportion_confint(26, 30, method="wilson")[0])
    assert not standing(kept([FAIL] * 5 + [PASS] * 25)).is_met


def test_fewer_swings_than_the_rule_asks_tell_nothing() -> None:
    some = standing(kept([PASS] * 29))
    assert not some.is_met
    assert some.interval is None
    assert some.words == (
        "knee past ankle at P6 (at least 5 cm): 29 of 29; 1 more swing until it can be told"
    )


def test_only_the_newest_swings_count() -> None:
    assert standing(kept([FAIL] * 500 + [PASS] * 30)).is_met
    assert not standing(kept([PASS] * 500 + [FAIL] * 30)).is_met


@pytest.mark.parametrize(
    ("choice", "passes", "trials"),
    [("not a pass", 20, 30), ("a pass", 30, 30), ("left out", 29, 30)],
)
def test_too_close_counts_as_the_coach_says(choice: str, passes: int, trials: int) -> None:
    history = kept([FAIL] + [PASS] * 9 + [TOO_CLOSE] * 10 + [PASS] * 20)
    found = standing(history, more=f", too_close: {choice}")
    assert (found.passes, found.trials) == (passes, trials)


def test_by_default_too_close_is_no_pass() -> None:
    assert standing(kept([TOO_CLOSE] * 30)).passes == 0


def test_another_bound_student_or_target_is_another_history() -> None:
    for other in (
        TargetKey("Heron", KNEE.title, "at least 4 cm"),
        TargetKey("Teal", KNEE.title, KNEE.bound),
        TargetKey("Heron", "tempo", KNEE.bound),
    ):
        assert standing(kept([PASS] * 40, other)).trials == 0


def test_a_met_target_is_proposed_to_be_maintained_or_harder() -> None:
    history = kept([PASS] * 30)
    assert standing(history).proposal == "maintain it"
    harder = standing(history, more=", harder: {at_least: 6.5 cm}")
    assert harder.words == (
        "knee past ankle at P6 (at least 5 cm): 30 of 30, at least 89 % by the 95 % interval. "
        "Proposed to the coach: make it at least 6.5 cm"
    )


def test_what_misses_says_what_is_wanted() -> None:
    words = standing(kept([PASS] * 15 + [FAIL] * 15)).words
    assert words.endswith("15 of 30, at least 33 % by the 95 % interval; wanted: more than 70 %")


def test_a_session_is_remembered_after_those_before() -> None:
    plan = practice_plan(SECTION.format(over=30, more=""))
    session = RememberedPasses()
    for number in range(6):
        session = session.with_swing("Heron", plan.targets, told_swing(number, PASS))
    unseen = SwingVerdict(7, TOO_CLOSE, (told_target(TOO_CLOSE, None),), "not seen")
    session = session.with_swing("Heron", plan.targets, unseen)
    key = target_key("Heron", plan.targets[0])
    assert key == KNEE
    both = OneAfterAnother(kept([FAIL] * 3), session)
    assert both.outcomes(key) == (FAIL, FAIL, FAIL, PASS, PASS, PASS, PASS, PASS, PASS)


def test_a_plan_without_rules_has_no_progress() -> None:
    plan = practice_plan("  blocks: [{drills: [{drill: full swing, count: 3}]}]\n")
    assert progress_of(plan, kept([PASS] * 40)) == ()
