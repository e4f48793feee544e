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


@pytest.mark.parametrize("name", ["P2", "P3", "P5", "P6", "P8"])
def test_down_the_line_shows_neither_shaft_nor_arm_parallel(name: str) -> None:
    (line,) = refusal("down-the-line", "address", name)
    assert line == (
        f'plan.yaml:6: targets[1].to: "{name}" cannot be seen down-the-line; '
        "allowed: address, takeaway, top, impact"
    )


@pytest.mark.parametrize("view", [view.value for view in View])
def test_the_finish_comes_too_late_for_a_verdict(view: str) -> None:
    (line,) = refusal(view, "address", "finish")
    assert 'targets[1].to: "finish" comes after the verdict has been given' in line


def test_each_wrong_checkpoint_is_told() -> None:
    lines = refusal("down-the-line", "P2", "P5")
    assert ["targets[1].from" in lines[0], "targets[1].to" in lines[1]] == [True, True]


@pytest.mark.parametrize(
    ("asked", "key"),
    [
        ("largest_between: [P2, impact]", "largest_between"),
        ("furthest_between: [top, impact], against: P5", "against"),
        ("at: P6", "at"),
    ],
)
def test_spans_are_looked_at_too(asked: str, key: str) -> None:
    target = f"  - {{measure: head rise, {asked}, at_most: 4 cm}}\n"
    with pytest.raises(PlanError, match=rf"targets\[1\]\.{key}: .* cannot be seen down-the-line"):
        parse_plan(HEAD.format("down-the-line") + "targets:\n" + target, "plan.yaml")


def test_face_on_shows_all_but_the_finish() -> None:
    assert set(checkpoints_shown(View.FACE_ON)) == set(CheckpointName) - {CheckpointName.FINISH}
