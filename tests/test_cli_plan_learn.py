"""``baycue plan learn``: from recordings to a proposal, and nothing lost on the way."""

from collections.abc import Callable
from pathlib import Path

import pytest
from rich.console import Console

from baycue.commands.plan_learn import LearnRequest, run_plan_learn
from baycue.errors import BaycueError, OutputError, RecordingError, SceneError
from baycue.measures.evidence import SwingEvidence
from baycue.plan.load import load_plan
from baycue.plan.plan import Plan
from baycue.recording import ScoredRecording
from baycue.spine import ScoredSwing
from baycue.verdict.judge import judge_swing
from tests.canned_evidence import Filmed, evidence_of
from tests.command_line import PLAN, SAMPLES, Run
from tests.stick_golfer import StickGolfer

CLIPS = [SAMPLES / f"{name}.mp4" for name in ("knee_pass_30fps", "driver_30fps", "wedge_60fps")]
POOR, EMPTY = SAMPLES / "knee_fail_30fps.mp4", SAMPLES / "no_swing_30fps.mp4"


def swing(knee_m: float) -> SwingEvidence:
    return evidence_of(Filmed(golfer=StickGolfer(knee_m=lambda _: knee_m)))


def invented(path: Path, plan: Plan, on_frame: Callable[[int], None]) -> ScoredRecording:
    """In place of watching: two swings a clip, the knee as the clip's place in the list says."""
    on_frame(1)
    if path == EMPTY:
        return ScoredRecording(1, 0, 30.0, 1, ())
    first = 0.0 if path == POOR else 0.05 + 0.01 * CLIPS.index(path)
    seen = [swing(first), swing(first + 0.003)]
    scored = tuple(ScoredSwing(e, judge_swing(k, ()), 0) for k, e in enumerate(seen))
    return ScoredRecording(1, 0, 30.0, 1, scored)


def request(folder: Path, good: list[Path], poor: list[Path] | None = None) -> LearnRequest:
    return LearnRequest(good, poor or [], PLAN, folder / "proposal.yaml")


def test_the_proposal_is_written_and_loads(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    learnt = run_plan_learn(request(tmp_path, CLIPS, [POOR]), Console(width=80), invented)
    assert load_plan(tmp_path / "proposal.yaml").targets == load_plan(PLAN).targets
    knee = learnt.findings[0]
    assert knee.asked.target.title == "knee past ankle at P6"
    assert (len(knee.good.values), len(knee.poor.values)) == (6, 2)
    said = capsys.readouterr().out
    assert "12 of 12" in said
    assert "at least" in said
    assert all(len(line) <= 80 for line in said.splitlines()[:-1])


def test_what_cannot_be_used_is_left_out_and_told(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    run_plan_learn(request(tmp_path, [EMPTY, *CLIPS[:2]]), Console(), invented)
    told = "eft out: no_swing_30fps.mp4: no swing found"
    assert told in capsys.readouterr().out
    assert told in (tmp_path / "proposal.yaml").read_text()


def test_too_few_swings_write_nothing(tmp_path: Path) -> None:
    with pytest.raises(SceneError, match="2 good swings were found; 3 are the least"):
        run_plan_learn(request(tmp_path, CLIPS[:1]), Console(quiet=True), invented)
    assert list(tmp_path.iterdir()) == []


def never(path: Path, plan: Plan, on_frame: Callable[[int], None]) -> ScoredRecording:
    raise AssertionError("refused before the work")


@pytest.mark.parametrize(
    ("good", "poor", "kind", "told"),
    [
        (CLIPS[:1] * 2, [], BaycueError, "named twice"),
        (CLIPS[:1], CLIPS[:1], BaycueError, "named twice"),
        ([SAMPLES / "nowhere.mp4"], [], RecordingError, "no such file"),
        ([PLAN], [], RecordingError, "is not a video"),
    ],
)
def test_wrong_clips_are_refused_before_the_work(
    good: list[Path], poor: list[Path], kind: type[Exception], told: str, tmp_path: Path
) -> None:
    with pytest.raises(kind, match=told):
        run_plan_learn(request(tmp_path, good, poor), Console(quiet=True), never)


def test_a_proposal_that_exists_is_not_overwritten(tmp_path: Path) -> None:
    mine = tmp_path / "proposal.yaml"
    mine.write_text("mine")
    with pytest.raises(OutputError, match="not overwritten"):
        run_plan_learn(request(tmp_path, CLIPS), Console(quiet=True), never)
    assert mine.read_text() == "mine"


def test_from_real_recordings(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Three swings of two samples through the whole spine; two of them pass by the knee."""
    out = tmp_path / "proposal.yaml"
    run = Run(capsys)
    good = [SAMPLES / "knee_pass_30fps.mp4", SAMPLES / "two_swings_30fps.mp4"]
    words = [word for path in good for word in ("--good", path)]
    said = run("plan", "learn", *words, "--like", PLAN, "--out", out, "--measure", "tempo")
    assert (said.exit_code, said.err) == (0, "")
    assert "n 3" in said.out
    assert load_plan(out).targets == load_plan(PLAN).targets
    assert "watch_only: true" in out.read_text().partition("Good: 3 swings")[2]
