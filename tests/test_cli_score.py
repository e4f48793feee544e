"""The main job on a sample recording, with everything it writes."""

import json
import os
import subprocess
import sys
import wave
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pygame
import pytest

from baycue.capture.recording import RecordingSource
from baycue.cues.display import SIZE_PX
from baycue.report.document import ScoreDocument
from baycue.synthetic.truth_file import read_truth
from tests.command_line import PLAN, PROJECT, SAMPLE, SAMPLES, Run


@dataclass(frozen=True)
class Outcome:
    """What ``baycue score`` said and wrote in a folder of its own."""

    folder: Path
    lines: list[str]
    document: ScoreDocument
    clip: Path


@pytest.fixture(scope="module")
def scored(tmp_path_factory: pytest.TempPathFactory) -> Outcome:
    """The sample scored once, on a machine without display and sound."""
    folder = tmp_path_factory.mktemp("scored")
    command = ["score", str(SAMPLE), "--plan", str(PLAN), "--out", "out"]
    result = subprocess.run(
        [sys.executable, "-m", "baycue.cli", *command, "--json", "a.json", "--annotate", "a.mp4"],
        cwd=folder,
        env=without_display_and_sound(folder),
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert (result.returncode, result.stderr) == (0, "")
    document = ScoreDocument.model_validate_json((folder / "a.json").read_text(encoding="utf-8"))
    return Outcome(folder, result.stdout.splitlines(), document, folder / "a.mp4")


def without_display_and_sound(folder: Path) -> dict[str, str]:
    """An environment whose only sound card is one that does not exist."""
    alsa = folder / "asound.conf"
    alsa.write_text("pcm.!default { type hw card 99 }\nctl.!default { type hw card 99 }\n")
    kept = {k: v for k, v in os.environ.items() if not k.startswith(("DISPLAY", "WAYLAND", "SDL"))}
    nowhere = {"PULSE_SERVER": "unix:/nowhere", "ALSA_CONFIG_PATH": str(alsa)}
    return kept | nowhere | {"PYTHONPATH": str(PROJECT), "COLUMNS": "80"}


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


def test_the_table_says_the_verdict(scored: Outcome) -> None:
    assert "Swing 1: FAIL" in scored.lines
    (knee,) = [line for line in scored.lines if "knee past ankle" in line]
    assert knee.startswith("fail ")


def test_what_was_missing_is_said_in_one_line_with_what_is_done_instead(scored: Outcome) -> None:
    (line,) = [line for line in scored.lines if "no window" in line]
    assert "no sound: " in line
    assert "DISPLAY" in line
    assert str(Path("out/knee_fail_30fps-1/tone.wav")) in line
    assert str(Path("out/knee_fail_30fps-1/screen-1.png")) in line


def test_the_big_screen_and_the_tone_are_files(scored: Outcome) -> None:
    results = scored.folder / "out" / "knee_fail_30fps-1"
    assert sorted(path.name for path in results.iterdir()) == ["screen-1.png", "tone.wav"]
    assert pygame.image.load(str(results / "screen-1.png")).get_size() == SIZE_PX
    with wave.open(str(results / "tone.wav")) as tone:
        samples = np.frombuffer(tone.readframes(tone.getnframes()), "<i2")
        assert tone.getnframes() > 0.1 * tone.getframerate()
    assert np.abs(samples).max() > 3000


def test_the_document_agrees_with_the_truth_beside_the_sample(scored: Outcome) -> None:
    """Truth: where the synthetic golfer's joints and club really were."""
    (true,) = read_truth(SAMPLE.with_suffix(".truth.json")).swings
    (swing,) = scored.document.swings
    assert swing.outcome == "fail"
    knee = swing.targets[0]
    assert knee.value is not None
    assert knee.sigma is not None
    assert knee.value == pytest.approx(true.knee_past_ankle_m["P6"], abs=3 * knee.sigma)
    p6 = next(c for c in swing.checkpoints if c.name == "P6")
    assert p6.time_s == pytest.approx(true.checkpoints_s["P6"], abs=1 / scored.document.fps)


def test_the_verdict_needs_less_than_a_second_of_pictures_after_impact(scored: Outcome) -> None:
    (swing,) = scored.document.swings
    assert swing.decided_after_impact_s is not None
    assert 0 < swing.decided_after_impact_s < 0.5


def test_the_annotated_clip_plays_like_the_recording_and_is_higher(scored: Outcome) -> None:
    with RecordingSource(SAMPLE) as sample, RecordingSource(scored.clip) as clip:
        assert clip.frame_count == sample.frame_count
        assert clip.width_px == sample.width_px
        assert clip.height_px > sample.height_px
        stamps = [[f.stamp_ns for f in source] for source in (sample, clip)]
    assert stamps[1] == pytest.approx(stamps[0], abs=20_000)


def test_table_only_writes_nothing_unasked_and_tells_two_swings_apart(
    tmp_path: Path, run: Run
) -> None:
    recording = SAMPLES / "two_swings_30fps.mp4"
    written, out = tmp_path / "a.json", tmp_path / "out"
    said = run("score", recording, "-p", PLAN, "--out", out, "--table-only", "--json", written)
    assert said.exit_code == 0
    swings = json.loads(written.read_text(encoding="utf-8"))["swings"]
    assert [(s["number"], s["outcome"]) for s in swings] == [(1, "fail"), (2, "pass")]
    assert "Swing 1: FAIL" in said.out
    assert "Swing 2: PASS" in said.out
    assert "no window" not in said.out
    assert list(tmp_path.iterdir()) == [written]
