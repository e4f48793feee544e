"""What is looked at: the plan's own targets and every other measure of its view."""

import pytest

from baycue.errors import BaycueError
from baycue.learn.asked import asked_of
from baycue.measures.catalogue import measures
from baycue.plan.load import parse_plan
from baycue.plan.stance import View
from tests.learnt_samples import LIKE, plan_and_data

BEHIND = (
    "student: Heron\nhandedness: right\nstature: 178 cm\nview: down-the-line\n"
    "targets: [{measure: tempo, at_most: 4}]\n"
)


def test_the_plan_s_own_moment_goes_before_the_usual_one() -> None:
    plan, data = plan_and_data()
    first, *others = asked_of(plan, data["targets"])
    assert (first.target.title, first.keys, first.in_plan) == ("knee early", {"at": "P5"}, 1)
    assert first.target.when == plan.targets[0].when
    shown = {m.name for m in measures() if View.FACE_ON in m.views}
    assert [a.in_plan for a in others] == [0] * len(others)
    assert {a.target.measure for a in others} == shown - {"knee past ankle"}


def test_every_measure_of_either_view_has_a_usual_moment_that_a_plan_may_ask() -> None:
    for text, view in ((LIKE, View.FACE_ON), (BEHIND, View.DOWN_THE_LINE)):
        plan = parse_plan(text, "p")
        found = asked_of(plan, [{}])
        assert {a.target.measure for a in found} == {m.name for m in measures() if view in m.views}
        for each in found[1:]:
            targets = (each.target,)
            assert plan.model_validate({**dict(plan), "targets": targets}).targets == targets


def test_only_what_is_named_is_looked_at() -> None:
    plan, data = plan_and_data()
    found = asked_of(plan, data["targets"], ["Head  Rise"])
    assert [a.target.measure for a in found] == ["head rise"]


@pytest.mark.parametrize(
    ("text", "name", "told"),
    [
        (LIKE, "head rice", 'did you mean "head rise"'),
        (BEHIND, "knee past ankle", "no measure seen"),
    ],
)
def test_what_cannot_be_measured_is_refused(text: str, name: str, told: str) -> None:
    with pytest.raises(BaycueError, match=told):
        asked_of(parse_plan(text, "p"), [{}], [name])
