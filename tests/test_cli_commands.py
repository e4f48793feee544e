"""The other commands, and what their help teaches."""

import json
import re
from dataclasses import replace
from pathlib import Path

import pytest
from rich.console import Console

from baycue.commands.benchmark import Speed
from baycue.commands.demo import PLAN as DEMO_PLAN
from baycue.commands.demo import SAMPLE as DEMO_SAMPLE
from baycue.commands.make_recording import make_all
from baycue.commands.options import SAFETY
from baycue.errors import BaycueError, OutputError, PlanError, RecordingError, SceneError
from baycue.synthetic.camera import Camera
from baycue.synthetic.sample_recipes import SAMPLES
from tests.command_line import PLAN, PROJECT, Run, files
from tests.test_cli_pictures import clip_of, standing


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "80")
    return Run(capsys)


def flat(text: str) -> str:
    """The words of a help text, without frames and line breaks."""
    return " ".join(re.sub(r"[│╭╮╰╯─]", " ", text).split())


@pytest.mark.parametrize(
    "command",
    ["score", "demo", "make-recording", "scale-board", "schema", "benchmark", "bench-scale"],
)
def test_every_command_teaches_with_an_example(command: str, run: Run) -> None:
    said = run(command, "--help")
    assert said.exit_code == 0
    assert f"Example: baycue {command}" in flat(said.out)


@pytest.mark.parametrize("command", [(), ("score",), ("demo",), ("scale-board",)])
def test_where_somebody_swings_the_help_cautions(command: tuple[str, ...], run: Run) -> None:
    assert SAFETY in flat(run(*command, "--help").out)


def test_the_help_names_the_exit_codes_that_the_errors_have(run: Run) -> None:
    kinds = (BaycueError, RecordingError, PlanError, SceneError, OutputError)
    assert [kind.exit_code for kind in kinds] == [2, 3, 4, 5, 6]
    told = flat(run("--help").out).partition("Exit codes: ")[2]
    assert [int(code) for code in re.findall(r"\d", told)] == [0, 2, 3, 4, 5, 6]


def test_the_demo_s_sample_and_plan_are_there() -> None:
    assert (PROJECT / DEMO_SAMPLE).exists()
    assert (PROJECT / DEMO_PLAN).exists()


def test_recipes_are_listed_with_what_they_show(run: Run) -> None:
    said = run("make-recording")
    assert said.exit_code == 0
    for recipe in SAMPLES:
        assert recipe.name in said.out
        assert recipe.shows.split()[0] in said.out


def test_an_unknown_recipe_gets_the_nearest_name(tmp_path: Path, run: Run) -> None:
    said = run("make-recording", "knee_fial_30fps", "--out", tmp_path / "out")
    assert said.exit_code == 2
    assert 'did you mean "knee_fail_30fps"?' in said.line
    assert list(tmp_path.iterdir()) == []


def test_a_name_and_all_is_refused(tmp_path: Path, run: Run) -> None:
    said = run("make-recording", "wedge_60fps", "--all", "--out", tmp_path / "out")
    assert said.exit_code == 2
    assert "not both" in said.line


@pytest.mark.parametrize("suffix", [".mp4", ".mp4.partial", ".truth.json"])
def test_nothing_is_rendered_if_any_file_would_be_overwritten(
    suffix: str, tmp_path: Path, run: Run
) -> None:
    (tmp_path / f"{SAMPLES[-1].name}{suffix}").write_text("mine")
    before = files(tmp_path)
    said = run("make-recording", "--all", "--out", tmp_path)
    assert said.exit_code == 6
    assert "not overwritten" in said.line
    assert files(tmp_path) == before


def test_a_recording_is_made_with_its_truth(tmp_path: Path) -> None:
    small = Camera(width_px=64, height_px=48, distance_m=3.6, height_m=0.95)
    recipe = replace(SAMPLES[0], name="small", camera=small, fps=10.0)
    make_all([recipe], tmp_path / "new" / "folder", Console(quiet=True))
    assert [path.name for path in files(tmp_path)] == ["small.mp4", "small.truth.json"]
    with pytest.raises(OutputError, match="exists already"):
        make_all([recipe], tmp_path / "new" / "folder", Console(quiet=True))


@pytest.mark.parametrize(("of", "key"), [("plan", "handedness"), ("score", "swings")])
def test_schemas_are_printed_as_json(of: str, key: str, run: Run) -> None:
    said = run("schema", of)
    assert said.exit_code == 0
    assert key in json.loads(said.out)["properties"]


def test_an_unknown_schema_gets_the_nearest_name(run: Run) -> None:
    said = run("schema", "scores")
    assert said.exit_code == 2
    assert 'did you mean "score"?' in said.line


def test_the_benchmark_prints_both_speeds_and_their_ratio(tmp_path: Path, run: Run) -> None:
    clip = clip_of(standing(), tmp_path / "still.mp4")
    said = run("benchmark", clip, "--plan", PLAN)
    assert (said.exit_code, said.err) == (0, "")
    assert said.out.count("frames a second") == 2
    assert re.search(r"ratio\W+\d+\.\d\d", said.out)


def test_the_ratio_is_the_spine_s_share_of_the_bare_pose_call() -> None:
    assert Speed(frames=10, bare_pose_fps=40.0, spine_fps=30.0, peak_mb=None).ratio == 0.75
