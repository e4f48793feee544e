"""``baycue plan``: check, measures, new and schema, from the command line."""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
import yaml

from baycue.commands.options import SAFETY
from baycue.measures.catalogue import measures
from baycue.measures.figures import read_figures
from baycue.plan.load import load_plan, plan_schema
from baycue.plan.stance import View
from tests.command_line import PLAN, PLANS, Run
from tests.test_cli_commands import flat

EXAMPLES = sorted(PLANS.glob("*.yaml"))


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "100")
    return Run(capsys)


@pytest.mark.parametrize("command", ["check", "learn", "measures", "new", "schema"])
def test_every_command_teaches_with_an_example(command: str, run: Run) -> None:
    said = run("plan", command, "--help")
    assert said.exit_code == 0
    assert f"Example: baycue plan {command}" in flat(said.out)


def test_right_plans_are_told_target_by_target(run: Run) -> None:
    said = run("plan", "check", PLAN)
    assert (said.exit_code, said.err) == (0, "")
    assert f"{PLAN}: right" in said.out
    for target in load_plan(PLAN).targets:
        assert f"  {target.title}: " in said.out


def test_every_file_is_looked_at_though_one_is_wrong(tmp_path: Path, run: Run) -> None:
    wrong = tmp_path / "wrong.yaml"
    wrong.write_text(PLAN.read_text().replace("at: P6", "at: P66"))
    said = run("plan", "check", wrong, PLAN, tmp_path / "nowhere.yaml", tmp_path)
    assert said.exit_code == 4
    assert f"{PLAN}: right" in said.out
    first, *others = said.err.splitlines()
    assert first.startswith(f"baycue: {wrong}:")
    assert '"P66" is not a known checkpoint' in first
    assert [line.split(": ")[1] for line in others] == ["cannot be read"] * 2


def test_a_warning_is_told_and_is_no_fault(tmp_path: Path, run: Run) -> None:
    """By the figures that the package carries, if it has any of the knee."""
    if not any(f.measure == "knee past ankle" for f in read_figures().figures):
        pytest.skip("the bench's figures are not in the package yet")
    plan = tmp_path / "fine.yaml"
    plan.write_text(
        PLAN.read_text().replace("at_least: 5 cm", "at_least: 5 cm\n    tolerance: 1 mm")
    )
    said = run("plan", "check", plan)
    assert (said.exit_code, said.err) == (0, "")
    assert f"warning: {plan}:" in said.out
    assert "1 mm is finer than the bay can tell" in said.out


def test_every_measure_is_told_with_its_definition_and_sign(run: Run) -> None:
    said = run("plan", "measures")
    assert said.exit_code == 0
    for measure in measures():
        assert f"measure   {measure.name} " in said.out
        assert flat(measure.positive) in flat(said.out)


def test_the_list_can_be_of_one_view(run: Run) -> None:
    said = run("plan", "measures", "--view", "down-the-line")
    for measure in measures():
        told = f"measure   {measure.name} " in said.out
        assert told == (View.DOWN_THE_LINE in measure.views)
    wrong = run("plan", "measures", "--view", "face on")
    assert wrong.exit_code == 2
    assert 'did you mean "face-on"?' in wrong.line


@pytest.mark.parametrize("view", [view.value for view in View])
def test_a_new_plan_is_right_and_carries_the_cautions(view: str, tmp_path: Path, run: Run) -> None:
    file = tmp_path / "heron.yaml"
    said = run(
        "plan", "new", file, "--student", "Heron: #1", "--view", view, "--handedness", "left"
    )
    assert (said.exit_code, said.err) == (0, "")
    plan = load_plan(file)
    assert (plan.student, plan.view.value, plan.handedness.value) == ("Heron: #1", view, "left")
    for caution in SAFETY.split(". "):
        assert caution.split(",")[0][:40] in flat(file.read_text().replace("#", " "))


def test_a_new_plan_never_overwrites(tmp_path: Path, run: Run) -> None:
    mine = tmp_path / "mine.yaml"
    mine.write_text("mine")
    said = run("plan", "new", mine)
    assert said.exit_code == 6
    assert mine.read_text() == "mine"


@pytest.mark.parametrize(
    ("option", "word", "told"),
    [
        ("--stature", "178", "needs a unit"),
        ("--view", "side", "not a known view"),
        ("--handedness", "rihgt", 'did you mean "right"?'),
        ("--student", "a\nb", "one line"),
    ],
)
def test_facts_that_no_plan_may_hold_write_nothing(
    option: str, word: str, told: str, tmp_path: Path, run: Run
) -> None:
    said = run("plan", "new", tmp_path / "new.yaml", option, word)
    assert said.exit_code == 4
    assert told in said.err
    assert list(tmp_path.iterdir()) == []


def as_an_editor_reads_it(path: Path) -> Any:
    return yaml.safe_load(path.read_text(encoding="utf-8"))


class TestSchema:
    """As an editor would use it: plain YAML values against the JSON Schema, by jsonschema."""

    validator = jsonschema.Draft202012Validator(plan_schema())

    def test_it_is_a_json_schema(self, run: Run) -> None:
        jsonschema.Draft202012Validator.check_schema(plan_schema())
        printed = run("plan", "schema")
        assert json.loads(printed.out) == plan_schema()

    @pytest.mark.parametrize("path", EXAMPLES, ids=lambda p: p.stem)
    def test_every_example_fits_it(self, path: Path) -> None:
        assert list(self.validator.iter_errors(as_an_editor_reads_it(path))) == []

    @pytest.mark.parametrize("view", [view.value for view in View])
    def test_a_new_plan_fits_it(self, view: str, tmp_path: Path, run: Run) -> None:
        run("plan", "new", tmp_path / "new.yaml", "--view", view)
        assert list(self.validator.iter_errors(as_an_editor_reads_it(tmp_path / "new.yaml"))) == []

    @pytest.mark.parametrize(
        ("old", "new"),
        [
            ("measure: tempo", "measure: temo"),
            ("at: P6", "at: P66"),
            ("handedness: right", "handedness: rihgt"),
            ("view: face-on", "view: face on"),
            ("stature: 178 cm", "statur: 178 cm"),
            ("watch_only: true", "watch_only: perhaps"),
            ("between: [2.5, 3.5]", "between: [2.5]"),
            ("at_least: 5 cm", "at_leest: 5 cm"),
        ],
    )
    def test_a_slip_does_not_fit_it(self, old: str, new: str) -> None:
        text = PLAN.read_text(encoding="utf-8")
        assert old in text
        assert list(self.validator.iter_errors(yaml.safe_load(text.replace(old, new))))

    @pytest.mark.parametrize("short", ["P1", "P4", "P7"])
    def test_the_shorthands_that_load_fit_it_too(self, short: str, tmp_path: Path) -> None:
        path = tmp_path / "plan.yaml"
        path.write_text(PLAN.read_text(encoding="utf-8").replace("at: P6", f"at: {short}"))
        load_plan(path)
        assert list(self.validator.iter_errors(as_an_editor_reads_it(path))) == []
