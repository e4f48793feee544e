"""The proposal: a plan that means what the one before meant, until the coach takes a bound."""

import re

import pytest

from baycue.learn.finding import Finding, compared
from baycue.learn.proposal import Learnt, proposal_text
from baycue.learn.words import reading_word, separation_words
from baycue.plan.load import parse_plan
from baycue.plan.units import WrittenUnit
from tests.learnt_samples import asked, knee, plan_and_data, sample


def learnt(*findings: Finding, clips: tuple[str, ...] = ("a.mp4", "b.mp4")) -> Learnt:
    return Learnt(findings, clips, ("poor.mp4",), 0.9, WrittenUnit.CM, ("c.mp4: no swing found",))


def text_of(found: Learnt) -> str:
    return proposal_text(plan_and_data()[1], found)


def taken(text: str, first: str) -> str:
    """The text with the marks of one proposal removed, from the line that starts with ``first``."""
    lines, taking = text.splitlines(), False
    for k, line in enumerate(lines):
        taking = line.startswith(first) or (taking and line.startswith("  #   "))
        lines[k] = line.replace("# ", "", 1) if taking else line
    return "\n".join(lines) + "\n"


def several() -> tuple[Finding, ...]:
    return compared(
        [
            (asked("knee past ankle"), sample(0.05, 0.06, 0.07, 0.08), sample(0.01, 0.02, 0.03)),
            (asked("head rise"), sample(0.0, 0.01, 0.02, 0.01), sample(0.01, 0.01, 0.02)),
            (asked("tempo"), sample(3.0, 3.1, 3.2, 3.1, sigma=0.3), sample(missing=3)),
        ]
    )


def test_it_loads_and_means_what_the_plan_before_it_meant() -> None:
    plan, _ = plan_and_data()
    again = parse_plan(text_of(learnt(*several())), "proposal.yaml")
    assert (again.student, again.stature, again.view) == (plan.student, plan.stature, plan.view)
    assert again.targets == plan.targets
    assert "A PROPOSAL" in text_of(learnt(knee())).splitlines()[0]


@pytest.mark.parametrize("name", ["head rise", "tempo"])
def test_a_bound_is_taken_by_removing_its_marks(name: str) -> None:
    first = f"  # - measure: {name}"
    again = parse_plan(taken(text_of(learnt(*several())), first), "proposal.yaml")
    assert len(again.targets) == 2
    assert again.targets[1].watch_only
    assert again.targets[1].between is not None


def test_taking_what_the_plan_asks_already_is_told() -> None:
    text = taken(text_of(learnt(*several())), "  # - measure: knee past ankle")
    with pytest.raises(Exception, match=r"targets\[2\].measure: asks the same as target 1"):
        parse_plan(text, "proposal.yaml")
    own = "  - measure: knee past ankle\n    at: P5\n    at_least: 5 cm\n    name: knee early\n"
    again = parse_plan(text.replace(own, ""), "proposal.yaml")
    (only,) = again.targets
    assert only.bound.low is not None
    assert only.bound.low.value < 0.05
    assert not only.watch_only


def test_it_says_how_many_swings_and_how_sure() -> None:
    text = " ".join(text_of(learnt(*several())).replace("#", " ").split())
    assert "Good: a.mp4, b.mp4." in text
    assert "Poor: poor.mp4." in text
    assert "Left out: c.mp4: no swing found." in text
    assert "mean -/+ t s sqrt(1 + 1/n)" in text
    assert "knee early (in the plan: target 1). Good: 4 swings, mean 6.5 cm, s 1.3 cm" in text
    assert "Poor: 3 swings, mean 2.0 cm" in text
    assert "Good is higher in 12 of 12 pairs; p = 0.057, adjusted 0.11" in text
    assert "Poor: no swing, 3 not measured." in text
    assert "no wider than the bay's own give or take, 0.30" in text


def test_no_line_of_it_escapes_its_comment() -> None:
    text = text_of(learnt(knee(), clips=("a\nview: down-the-line", "b\x1b[31m.mp4")))
    assert parse_plan(text, "p").view == plan_and_data()[0].view
    assert not re.search("[\x00-\x09\x0b-\x1f]", text)


def test_too_few_good_swings_propose_nothing() -> None:
    text = text_of(learnt(knee(sample(0.05, 0.06))))
    assert "Too few good swings for a bound." in text
    assert "# - measure" not in text


@pytest.mark.parametrize(
    ("good", "poor", "said", "word"),
    [
        ((5, 6, 7, 8, 9), (1, 2, 3, 4, 0), "by more than chance would explain", "differ"),
        ((4, 5, 6), (1, 2, 3), "p is at least 0.10", "no overlap, too few"),
        ((1, 3, 5), (2, 4, 6), "That may be chance", "not told apart"),
    ],
)
def test_the_reading_is_honest_about_few(
    good: tuple[float, ...], poor: tuple[float, ...], said: str, word: str
) -> None:
    found = knee(sample(*good), sample(*poor))
    assert said in separation_words(found, 1)
    assert reading_word(found) == word


def test_without_poor_swings_nothing_is_claimed() -> None:
    found = knee(poor=sample())
    assert "nothing says whether it matters" in separation_words(found, 0)
    assert reading_word(found) == ""
