"""What the picture shows, judged with the real pose model on rendered people."""

import re
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path

import numpy as np
import pytest

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from tests.command_line import PLAN, PLANS, SAMPLES, Run, files
from tests.standing_golfer import empty_bay, standing_golfer

FRAMES = 24
FPS = 30.0
_SECOND_AT_PX = 860


def standing() -> Picture:
    return standing_golfer(-60.0).picture


def too_near() -> Picture:
    """The camera too near and too high: the feet are below the picture."""
    return standing_golfer(-60.0, 2.6, 1.4).picture


def with_somebody_beside() -> Picture:
    """The golfer, and the same person again on the right."""
    picture = standing().copy()
    somebody = picture[:, 480:800]
    picture[:, _SECOND_AT_PX : _SECOND_AT_PX + somebody.shape[1]] = somebody
    return picture


def clip_of(picture: Picture, path: Path) -> Path:
    """A clip of one picture with a camera's noise."""
    rng = np.random.default_rng(3)
    with ClipWriter(path, picture.shape[1], picture.shape[0]) as writer:
        for index in range(FRAMES):
            noise = rng.integers(-3, 4, picture.shape, dtype=np.int16)
            noisy = np.clip(picture + noise, 0, 255).astype(np.uint8)
            writer.write(Frame(index, round(index * 1e9 / FPS), noisy))
    return path


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


@pytest.mark.parametrize(
    ("picture", "told"),
    [
        (empty_bay, r"nobody is seen in it; point the camera"),
        (too_near, r"feet are cut off by the picture's edge; tilt the camera down"),
        (with_somebody_beside, r"two people are in the picture; only the golfer"),
    ],
)
def test_a_picture_that_cannot_be_judged_is_told_in_one_line(
    picture: Callable[[], Picture], told: str, tmp_path: Path, run: Run
) -> None:
    recording = clip_of(picture(), tmp_path / "swing.mp4")
    before = files(tmp_path)
    said = run("score", recording, "--plan", PLAN, "--out", tmp_path / "out")
    assert said.exit_code == 5
    assert re.search(told, said.line)
    assert said.line.startswith("baycue: swing.mp4: ")
    assert files(tmp_path) == before


def test_a_golfer_who_does_not_swing_is_no_error(tmp_path: Path, run: Run) -> None:
    recording = clip_of(standing(), tmp_path / "swing.mp4")
    said = run("score", recording, "--plan", PLAN, "--out", tmp_path / "out")
    assert (said.exit_code, said.err) == (0, "")
    assert "No swing found" in said.out
    assert not (tmp_path / "out").exists()


def test_somebody_walking_through_is_no_second_person(tmp_path: Path, run: Run) -> None:
    recording = SAMPLES / "no_swing_30fps.mp4"
    said = run("score", recording, "--plan", PLAN, "--out", tmp_path / "out")
    assert (said.exit_code, said.err) == (0, "")
    assert "No swing found" in said.out


def test_the_wrong_handedness_in_the_plan_is_told(tmp_path: Path, run: Run) -> None:
    recording, plan = SAMPLES / "knee_fail_30fps.mp4", PLANS / "left_hander_knee.yaml"
    said = run("score", recording, "--plan", plan, "--out", tmp_path / "out")
    assert said.exit_code == 5
    assert "the swing goes the other way" in said.line
    assert "handedness: right" in said.line
    assert files(tmp_path) == {}


def test_native_libraries_add_nothing_to_the_one_line(tmp_path: Path) -> None:
    recording = clip_of(empty_bay(), tmp_path / "swing.mp4")
    command = ["score", str(recording), "--plan", str(PLAN)]
    result = subprocess.run(
        [sys.executable, "-m", "baycue.cli", *command],
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )
    assert result.returncode == 5
    assert re.fullmatch(r"baycue: swing\.mp4: nobody is seen .*\n", result.stderr)
