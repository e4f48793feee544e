"""The example plans: right, with the cautions, of every kind, and no warning but the expected."""

import re
from pathlib import Path

import pytest

from baycue.measures.catalogue import measures
from baycue.measures.figures import read_figures
from baycue.plan.cautions import cautions
from baycue.plan.file import plan_text
from baycue.plan.load import load_plan, parse_with_lines
from baycue.plan.plan import Plan
from baycue.plan.stance import Handedness, View
from baycue.plan.units import WrittenUnit
from baycue.practice.catalogue import drills
from tests.command_line import PLANS

EXAMPLES = sorted(PLANS.glob("*.yaml"))
each = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


def plans() -> list[Plan]:
    return [load_plan(path) for path in EXAMPLES]


@each
def test_it_is_right_and_carries_the_cautions(path: Path) -> None:
    load_plan(path)
    text = " ".join(path.read_text(encoding="utf-8").replace("#", " ").split())
    for words in ("invented", "within the club's reach", "top if", "facility's rules"):
        assert words in text


@each
@pytest.mark.parametrize("fps", [30, 60])
def test_no_warning_but_of_what_is_only_watched_and_the_file_says_so(path: Path, fps: int) -> None:
    plan, document = parse_with_lines(plan_text(path), str(path))
    for warning in cautions(plan, document, fps, read_figures().figures):
        found = re.fullmatch(r"targets\[(\d)\]\.measure", warning.key)
        assert found is not None, warning
        assert plan.targets[int(found[1]) - 1].watch_only, warning
        assert "baycue plan check" in path.read_text(encoding="utf-8")


def test_there_is_one_that_shows_such_a_warning() -> None:
    path = PLANS / "knee_with_what_one_camera_doubts.yaml"
    plan, document = parse_with_lines(plan_text(path), str(path))
    keys = {warning.key for warning in cautions(plan, document, 30, ())}
    assert keys == {"targets[3].measure", "targets[4].measure"}


@each
def test_what_the_trade_says_is_marked_as_having_no_source(path: Path) -> None:
    text = " ".join(path.read_text(encoding="utf-8").replace("#", " ").split())
    if "The fault" in text or "faults" in text or "go together" in text:
        assert "common practice, no source" in text


@each
def test_a_drill_s_own_cautions_stand_in_the_plan(path: Path) -> None:
    text = path.read_text(encoding="utf-8").partition("student:")[0]
    plan = load_plan(path)
    blocks = plan.practice.blocks if plan.practice else ()
    done = {drill.drill for block in blocks for drill in block.drills}
    said = {
        "into the ground": "never on a hard mat",
        "under a low cane": "beyond the club's reach",
        "rehearse and hold": "rest as soon as back or wrists tire",
    }
    for drill in done & set(said):
        assert said[drill] in " ".join(text.replace("#", " ").split())


def test_there_is_one_of_every_kind() -> None:
    found = plans()
    assert len(found) >= 8
    assert {plan.handedness for plan in found} == set(Handedness)
    assert {plan.view for plan in found} == set(View)
    assert min(plan.stature_m for plan in found) < 1.5 < 1.8 < max(p.stature_m for p in found)
    units = {q.written for p in found for t in p.targets for q in (t.bound.low, t.bound.high) if q}
    assert {WrittenUnit.CM, WrittenUnit.MM, WrittenUnit.INCH, WrittenUnit.DEGREE} <= units
    names = " ".join(path.stem for path in EXAMPLES)
    assert all(word in names for word in ("driver", "wedge", "junior", "left_hander"))


def test_the_first_drills_and_most_measures_have_an_example() -> None:
    blocks = [block for plan in plans() if plan.practice for block in plan.practice.blocks]
    done = {drill.drill for block in blocks for drill in block.drills}
    assert done <= {drill.name for drill in drills()}
    assert done >= {"full swing", "rehearse and hold", "into the ground", "under a low cane"}
    asked = {target.measure for plan in plans() for target in plan.targets}
    assert len(asked) >= 0.6 * len(measures())
