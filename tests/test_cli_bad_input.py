"""Files and plans that cannot be used: one clear line, an exit code, nothing overwritten."""

import subprocess
import sys
from pathlib import Path

import av
import pytest

from tests.command_line import PLAN, SAMPLE, Run, files
from tests.conftest import MakeClip


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


def write(path: Path, content: bytes | str) -> Path:
    path.write_bytes(content.encode() if isinstance(content, str) else content)
    return path


def stamps_ns(count: int, fps: float) -> list[int]:
    return [round(i * 1e9 / fps) for i in range(count)]


def without_frames(path: Path) -> Path:
    """A video file with a picture track and nothing in it."""
    with av.open(str(path), "w", options={"movflags": "empty_moov+frag_keyframe"}) as container:
        container.add_stream("libx264", rate=30)
        container.start_encoding()
    return path


def bad_recording(kind: str, folder: Path, make_clip: MakeClip) -> Path:
    if kind == "missing":
        return folder / "swing.mp4"
    if kind == "folder":
        return folder
    if kind == "text":
        return write(folder / "swing.mp4", "not a video at all\n" * 40)
    if kind == "empty":
        return write(folder / "swing.mp4", b"")
    if kind == "no frames":
        return without_frames(folder / "swing.mp4")
    if kind == "one frame":
        return make_clip([0])
    if kind == "slow":
        return make_clip(stamps_ns(30, 15.0))
    whole = make_clip(stamps_ns(60, 30.0), 320, 240)
    content = whole.read_bytes()
    return write(folder / "cut.mp4", content[: int(0.6 * len(content))])


@pytest.mark.parametrize(
    ("kind", "told"),
    [
        ("missing", "no such file"),
        ("folder", "is a folder"),
        ("text", "is not a video"),
        ("empty", "0 bytes"),
        ("no frames", "no frames"),
        ("one frame", "1 frame, a still picture"),
        ("slow", "runs at 15.0 frames a second, and 24 is the least"),
        ("cut", "cut off"),
    ],
)
def test_a_bad_recording_is_told_in_one_line(
    kind: str, told: str, tmp_path: Path, make_clip: MakeClip, run: Run
) -> None:
    recording = bad_recording(kind, tmp_path, make_clip)
    before = files(tmp_path)
    said = run("score", recording, "--plan", PLAN, "--out", tmp_path / "out")
    assert said.exit_code == 3
    assert told in said.line
    assert str(recording) in said.line
    assert files(tmp_path) == before


def plan_with(folder: Path, old: str, new: str) -> Path:
    text = PLAN.read_text(encoding="utf-8")
    assert old in text
    return write(folder / "plan.yaml", text.replace(old, new, 1))


@pytest.mark.parametrize(
    ("old", "new", "told"),
    [
        ("student: Heron", "student: [Heron", "not valid YAML"),
        ("handedness:", "handednes:", 'did you mean "handedness"?'),
        ("at_least: 5 cm", "at_least: 5", "unit"),
        ("measure: tempo", "measure: temo", 'did you mean "tempo"?'),
        ("handedness: right", "handedness: rihgt", 'did you mean "right"?'),
        ("at: P6", "at: P66", '"P66" is not a known checkpoint'),
    ],
)
def test_a_faulty_plan_is_told_with_file_and_line(
    old: str, new: str, told: str, tmp_path: Path, run: Run
) -> None:
    plan = plan_with(tmp_path, old, new)
    said = run("score", SAMPLE, "--plan", plan, "--out", tmp_path / "out")
    assert said.exit_code == 4
    assert told in said.err
    assert said.err.startswith(f"baycue: {plan}:")
    assert "Traceback" not in said.err
    assert list(tmp_path.iterdir()) == [plan]


@pytest.mark.parametrize(("name", "told"), [("heron.yaml", "No such file"), ("", "directory")])
def test_a_plan_that_is_no_file_is_told(name: str, told: str, tmp_path: Path, run: Run) -> None:
    said = run("score", SAMPLE, "--plan", tmp_path / name)
    assert said.exit_code == 4
    assert told in said.line


@pytest.mark.parametrize("option", ["--json", "--annotate"])
def test_a_result_that_exists_is_refused_before_the_work(
    option: str, tmp_path: Path, run: Run
) -> None:
    mine = write(tmp_path / "mine", "mine")
    said = run("score", SAMPLE, "--plan", PLAN, "--out", tmp_path / "out", option, mine)
    assert said.exit_code == 6
    assert f"{mine}: exists already and is not overwritten" in said.line
    assert mine.read_text() == "mine"
    assert said.out == ""


@pytest.mark.parametrize("option", ["--json", "--annotate"])
def test_a_result_without_a_folder_is_refused_before_the_work(
    option: str, tmp_path: Path, run: Run
) -> None:
    said = run("score", SAMPLE, "--plan", PLAN, option, tmp_path / "nowhere" / "result")
    assert said.exit_code == 6
    assert "there is no folder" in said.line
    assert said.out == ""


def test_one_file_cannot_be_scores_and_clip(tmp_path: Path, run: Run) -> None:
    result = tmp_path / "result"
    said = run("score", SAMPLE, "--plan", PLAN, "--json", result, "--annotate", result)
    assert said.exit_code == 6
    assert "name two files" in said.line
    assert said.out == ""


def test_a_place_for_pictures_that_is_a_file_is_refused_before_the_work(
    tmp_path: Path, run: Run
) -> None:
    mine = write(tmp_path / "mine", "mine")
    said = run("score", SAMPLE, "--plan", PLAN, "--out", mine / "out")
    assert said.exit_code == 6
    assert "is no folder" in said.line
    assert mine.read_text() == "mine"


def test_a_mistyped_command_and_option_offer_the_nearest(run: Run) -> None:
    command, option = run("scoer"), run("score", "swing.mp4", "--plna", "x")
    assert (command.exit_code, option.exit_code) == (2, 2)
    assert "'score'" in command.err
    assert "--plan" in option.err


def test_a_missing_plan_option_is_a_usage_error(run: Run) -> None:
    said = run("score", "swing.mp4")
    assert said.exit_code == 2
    assert "--plan" in said.err


def test_the_real_program_ends_with_the_line_and_the_code() -> None:
    result = subprocess.run(
        [sys.executable, "-m", "baycue.cli", "score", "nowhere.mp4", "--plan", str(PLAN)],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert result.returncode == 3
    assert result.stdout == ""
    line = "nowhere.mp4: no such file; check the name and the folder [R1]"
    assert result.stderr == f"baycue: {line}\n"
