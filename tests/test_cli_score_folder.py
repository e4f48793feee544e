"""A folder scored from the command line."""

import json
from pathlib import Path

import pytest

from baycue.folder.summary import FolderSummary, tally
from tests.command_line import PLAN, SAMPLE, Run, files


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "100")
    return Run(capsys)


def test_a_folder_is_scored_told_and_gone_on_with(tmp_path: Path, run: Run) -> None:
    clips, out = tmp_path / "clips", tmp_path / "out"
    (clips / "bay 1").mkdir(parents=True)
    (clips / "bay 1" / "swing.mp4").write_bytes(SAMPLE.read_bytes())
    (clips / "damaged.mp4").write_text("")
    words = ("score-folder", clips, "--plan", PLAN, "--out", out, "--workers", "1")
    first = run(*words)
    assert (first.exit_code, first.err) == (0, "")
    assert "2 clips: 2 scored, 0 anew, 0 kept." in first.out
    assert "damaged.mp4: the file is empty (0 bytes)" in first.out
    summary = FolderSummary.model_validate_json((out / "summary-1.json").read_text())
    assert [line.outcomes for line in summary.clips] == [("fail",), ()]
    assert (summary.swings.failed, summary.swings.pass_rate) == (1, 0.0)
    assert summary.targets[0].target == "knee past ankle at P6"
    before = files(tmp_path)
    again = run(*words)
    assert "2 clips: 0 scored, 0 anew, 2 kept." in again.out
    assert "Summary as before" in again.out
    assert files(tmp_path) == before


def test_the_summary_of_other_clips_is_another_file(tmp_path: Path, run: Run) -> None:
    (tmp_path / "a.mp4").write_text("")
    words = ("score-folder", tmp_path, "-p", PLAN, "--out", tmp_path / "out", "--workers", "1")
    run(*words)
    (tmp_path / "b.mp4").write_text("")
    said = run(*words)
    assert "1 scored, 0 anew, 1 kept" in said.out
    written = [json.loads((tmp_path / "out" / f"summary-{n}.json").read_text()) for n in (1, 2)]
    assert [len(summary["clips"]) for summary in written] == [1, 2]


def test_a_faulty_plan_is_told_before_the_work(tmp_path: Path, run: Run) -> None:
    plan = tmp_path / "plan.yaml"
    plan.write_text(PLAN.read_text(encoding="utf-8").replace("at: P6", "at: P66", 1))
    (tmp_path / "a.mp4").write_text("")
    said = run("score-folder", tmp_path, "--plan", plan, "--out", tmp_path / "out")
    assert said.exit_code == 4
    assert said.err.startswith(f"baycue: {plan}:")
    assert not (tmp_path / "out").exists()


def test_a_rate_is_of_those_that_were_called() -> None:
    """Newcombe 1998, Statistics in Medicine 17:857, table I: 7 of 10 is .3968 to .8922."""
    told = tally(["pass"] * 7 + ["fail"] * 3 + ["too close to call", "not measured"])
    assert (told.passed, told.failed, told.too_close, told.not_measured) == (7, 3, 1, 1)
    assert told.pass_rate == 0.7
    assert (told.low, told.high) == pytest.approx((0.3968, 0.8922), abs=5e-5)
    none = tally(["too close to call"])
    assert (none.pass_rate, none.low, none.high) == (None, 0.0, 1.0)


def test_the_command_teaches_with_an_example(run: Run) -> None:
    assert "Example: baycue score-folder" in " ".join(run("score-folder", "--help").out.split())
