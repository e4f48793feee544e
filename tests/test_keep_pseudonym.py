"""Kept under another name, the own name is nowhere; the plan still means the same."""

from dataclasses import replace
from pathlib import Path

import pytest

from baycue.commands.keeping import Keeping, KeepRequest
from baycue.errors import BaycueError
from baycue.keep.place import Place
from baycue.keep.pseudonym import plan_of_another
from baycue.keep.record import DrillPlace, PlanText, PracticeGo
from baycue.keep.rescore import rescored
from baycue.keep.swing_keeper import KeepingMeans
from baycue.plan.load import parse_plan
from tests.test_keep_session import PLENTY, Bay, told

TEXT = """\
# Plan for Kestrelwood, by Alder
student: Kestrelwood
handedness: right
stature: 178 cm
view: face-on
notes: >
  Kestrelwood's knee works late; tell KESTRELWOOD to wait.
targets:
  - measure: knee past ankle
    at: P6
    at_least: 5 cm
    name: Kestrelwood's knee
    cue: wait, Kestrelwood
"""


def test_the_plan_means_the_same_and_has_another_name() -> None:
    changed = plan_of_another(PlanText("kestrelwood_knee", TEXT), "Kestrelwood", "Bird 7")
    assert "kestrelwood" not in changed.text.lower()
    assert changed.name == "plan"
    before, after = parse_plan(TEXT, "a"), parse_plan(changed.text, "b")
    assert after.student == "Bird 7"
    assert after.targets[0].title == "Bird 7's knee"
    same = {"name": None, "cue": None}
    assert after.targets[0].model_copy(update=same) == before.targets[0].model_copy(update=same)


@pytest.mark.parametrize("name", ["at", "P6", "knee", "right", "cue", "student", "5 cm"])
def test_a_name_that_is_also_a_word_of_the_plan_breaks_nothing(name: str) -> None:
    text = TEXT.replace("Kestrelwood", name)
    changed = plan_of_another(PlanText("a plan", text), name, "Bird 7")
    after = parse_plan(changed.text, "b")
    assert after.student == "Bird 7"
    assert after.targets[0].measure == "knee past ankle"


def test_nothing_kept_holds_the_name(tmp_path: Path) -> None:
    means = KeepingMeans(free_bytes=lambda _: PLENTY, alias="Bird 7")
    bay = Bay(Place(tmp_path / "kept"), means=means)
    bay.film_all()
    plan = PlanText("kestrelwood_knee", TEXT)
    with bay.keeper() as keeper:
        go = PracticeGo(DrillPlace(0, 0), "what Kestrelwood keeps", "full swing", probe=True)
        keeper.known(replace(told(1, "Kestrelwood"), plan=plan, go=go))
    (record,) = bay.records()
    assert record.student == "Bird 7"
    assert record.go == replace(go, block="what Bird 7 keeps")
    assert "Kestrelwood" not in repr(record)
    assert [row.student for row in bay.rows()] == ["Bird 7"]
    for path in bay.place.folder.rglob("*"):
        assert "kestrelwood" not in str(path).lower()
        assert not path.is_file() or b"estrelwood" not in path.read_bytes()
    assert rescored(record, parse_plan(record.plan.text, "kept")) is not None


def test_one_pseudonym_for_two_students_is_refused(tmp_path: Path) -> None:
    with pytest.raises(BaycueError, match="several students"):
        Keeping(KeepRequest(tmp_path, alias="Bird 7"), ["Heron", "Alder"], lambda line: None)
