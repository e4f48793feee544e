"""Checkpoints that a view does not show are refused."""

import pytest

from baycue.errors import PlanError
from baycue.plan.load import parse_plan
from baycue.plan.sight import checkpoints_shown
from baycue.plan.stance import View
from baycue.swing.swing import CheckpointName

HEAD = "student: Heron\nhandedness: right\nstature: 178 cm\nview: {}\n"


def refusal(view: str, start: str, end: str) -> list[str]:
    rise = f"  - {{measure: head rise, from: {start}, to: {end}, at_most: 4 cm}}\n"
    with pytest.raises(PlanError) as caught:
        parse_plan(HEAD.format(view) + "targets:\n" + rise, "plan.yaml")
    return str(caught.value).splitlines()


def test_down_the_line_does_not_show_the_shaft_going_through() -> None:
    (line,) = refusal("down-the-line", "address", "P8")
    assert line == (
        'plan.yaml:6: targets[1].to: "P8" cannot be seen down-the-line; '
        "allowed: address, takeaway, P2, P3, top, P5, P6, impact"
    )


@pytest.mark.parametrize("name", ["P2", "P3", "P5", "P6"])
def test_down_the_line_the_hands_tell_the_checkpoints_going_back_and_down(name: str) -> None:
    rise = f"  - {{measure: head rise, from: address, to: {name}, at_most: 4 cm}}\n"
    text = HEAD.format("down-the-line") + "targets:\n" + rise
    (target,) = parse_plan(text, "plan.yaml").targets
    assert target.when.end is CheckpointName(name)


@pytest.mark.parametrize("view", [view.value for view in View])
def test_the_finish_comes_too_late_for_a_verdict(view: str) -> None:
    (line,) = refusal(view, "address", "finish")
    assert 'targets[1].to: "finish" comes after the verdict has been given' in line


def test_each_wrong_checkpoint_is_told() -> None:
    lines = refusal("down-the-line", "P8", "finish")
    assert ["targets[1].from" in lines[0], "targets[1].to" in lines[1]] == [True, True]


@pytest.mark.parametrize(
    ("asked", "key"),
    [
        ("largest_between: [P2, P8]", "largest_between"),
        ("furthest_between: [top, impact], against: P8", "against"),
        ("at: P8", "at"),
    ],
)
def test_spans_are_looked_at_too(asked: str, key: str) -> None:
    target = f"  - {{measure: head rise, {asked}, at_most: 4 cm}}\n"
    with pytest.raises(PlanError, match=rf"targets\[1\]\.{key}: .* cannot be seen down-the-line"):
        parse_plan(HEAD.format("down-the-line") + "targets:\n" + target, "plan.yaml")


def test_face_on_shows_all_but_the_finish() -> None:
    assert set(checkpoints_shown(View.FACE_ON)) == set(CheckpointName) - {CheckpointName.FINISH}
