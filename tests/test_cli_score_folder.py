"""``baycue score-folder`` as a coach types it."""

import json
import shutil
from pathlib import Path

import pytest

from tests.command_line import PLAN, SAMPLE, Run, files


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


@pytest.fixture
def season(tmp_path: Path) -> Path:
    """A sample recording and a file that is no video."""
    folder = tmp_path / "season"
    (folder / "May").mkdir(parents=True)
    shutil.copy(SAMPLE, folder / "May" / "swing.mp4")
    (folder / "text.mkv").write_text("not a video at all\n" * 40)
    return folder


def test_a_folder_is_scored_once_and_summed_up(run: Run, season: Path, tmp_path: Path) -> None:
    words = ("score-folder", season, "--plan", PLAN, "--out", tmp_path / "out", "--workers", "1")
    said = run(*words)
    assert said.exit_code == 0
    assert "2 clips: 2 scored, 0 anew, 0 kept." in said.out
    assert "text.mkv: " in said.out
    summary = json.loads((tmp_path / "out" / "summary-1.json").read_text())
    swing, text = summary["clips"]
    assert (swing["clip"], swing["outcomes"], swing["trouble"]) == ("May/swing.mp4", ["fail"], None)
    assert text["outcomes"] == []
    assert text["trouble"]
    assert (summary["swings"]["failed"], summary["swings"]["pass_rate"]) == (1, 0.0)
    before = files(tmp_path)
    again = run(*words)
    assert "2 clips: 0 scored, 0 anew, 2 kept." in again.out
    assert "Summary as before" in again.out
    assert files(tmp_path) == before


def test_a_plan_with_a_fault_is_told_before_the_work(
    run: Run, season: Path, tmp_path: Path
) -> None:
    plan = tmp_path / "faulty.yaml"
    plan.write_text(PLAN.read_text().replace("at_least: 5 cm", "at_leest: 5 cm"))
    said = run("score-folder", season, "--plan", plan, "--out", tmp_path / "out")
    assert said.exit_code == 4
    assert 'did you mean "at_least"' in said.err
    assert not (tmp_path / "out").exists()


def test_the_summary_of_other_clips_is_another_file(run: Run, tmp_path: Path) -> None:
    (tmp_path / "a.mp4").write_text("")
    words = ("score-folder", tmp_path, "-p", PLAN, "--out", tmp_path / "out", "--workers", "1")
    run(*words)
    (tmp_path / "b.mp4").write_text("")
    assert "1 scored, 0 anew, 1 kept" in run(*words).out
    written = [json.loads((tmp_path / "out" / f"summary-{n}.json").read_text()) for n in (1, 2)]
    assert [len(summary["clips"]) for summary in written] == [1, 2]
