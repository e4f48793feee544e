"""The proposal: a plan that means what the one before meant, until the coach takes a bound."""

import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from baycue.learn.finding import Finding, compared
from baycue.learn.proposal import Learnt, proposal_text
from baycue.learn.words import reading_word, separation_words
from baycue.measures.catalogue import measures
from baycue.plan.load import parse_plan
from baycue.plan.stance import View
from baycue.plan.units import WrittenUnit
from tests.learnt_samples import GOOD_KNEE, POOR_KNEE, asked, knee, plan_and_data, sample


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
            (asked("knee past ankle"), sample(*GOOD_KNEE), sample(*POOR_KNEE)),
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
    assert "knee early (in the plan: target 1). Good: 5 swings, mean 5.6 cm, s 0.6 cm" in text
    assert "Poor: 5 swings, mean 1.1 cm" in text
    assert "Good is higher in 25 of 25 pairs; p = 0.008, adjusted 0.016" in text
    assert "Poor: no swing, 3 not measured." in text
    assert "no wider than the bay's own give or take, 0.39" in text


def test_no_line_of_it_escapes_its_comment() -> None:
    text = text_of(learnt(knee(), clips=("a\nview: down-the-line", "b\x1b[31m.mp4")))
    assert parse_plan(text, "p").view == plan_and_data()[0].view
    assert not re.search("[\x00-\x09\x0b-\x1f]", text)


def test_too_few_good_swings_propose_nothing() -> None:
    text = text_of(learnt(knee(sample(0.05, 0.06))))
    assert "The good swings are too few, or too far apart, for a bound." in text
    assert "# - measure" not in text


@pytest.mark.parametrize(
    ("good", "poor", "said", "word"),
    [
        ((5, 6, 7, 8, 9), (1, 2, 3, 4, 0), "by more than chance would explain", "differ"),
        ((4, 5, 6), (1, 2, 3), "p cannot be below 0.10", "apart, too few"),
        ((1, 3, 5), (2, 4, 6), "That may be chance", "not told apart"),
    ],
)
def test_the_reading_is_honest_about_few(
    good: tuple[float, ...], poor: tuple[float, ...], said: str, word: str
) -> None:
    found = knee(sample(*good), sample(*poor))
    assert said in separation_words(found, 1)
    assert reading_word(found) == word


FACE_ON = [m.name for m in measures() if View.FACE_ON in m.views]
VALUES = st.lists(
    st.one_of(st.floats(-3, 3), st.sampled_from([0.0, -0.0, 0.05, 1e-9])), min_size=3, max_size=6
)


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(FACE_ON), VALUES, VALUES, st.booleans())
def test_every_bound_that_is_proposed_may_be_taken(
    name: str, good: list[float], poor: list[float], inches: bool
) -> None:
    (found,) = compared([(asked(name), sample(*good), sample(*poor))])
    unit = WrittenUnit.INCH if inches else WrittenUnit.CM
    text = proposal_text(plan_and_data()[1], Learnt((found,), ("a",), ("b",), 0.9, unit))
    parse_plan(text, "p")
    whole = taken(text, "  # - measure:")
    if whole != text and name != "knee past ankle":
        again = parse_plan(whole, "p").targets[1]
        edges = [q.value for q in (again.bound.low, again.bound.high) if q]
        assert edges
        assert (again.bound.low is None) or again.bound.low.value <= sum(good) / len(good) + 1e-9
        assert (again.bound.high is None) or again.bound.high.value >= sum(good) / len(good) - 1e-9


def test_swings_that_are_all_alike_get_a_range_that_may_be_taken() -> None:
    (found,) = compared([(asked("tempo"), sample(3.0, 3.0, 3.0), sample())])
    assert "# - measure: tempo\n  #   between: [2.99, 3.01]" in text_of(learnt(found))


def test_without_poor_swings_nothing_is_claimed() -> None:
    found = knee(poor=sample())
    assert "nothing says whether it matters" in separation_words(found, 0)
    assert reading_word(found) == ""
