"""``baycue replay`` on a sample, with a real window where Xvfb is installed."""

import subprocess
import sys
from pathlib import Path

import pytest

from tests.command_line import PLAN, SAMPLE, Run
from tests.test_cues_display import environment, needs_xvfb, virtual_display
from tests.test_cues_live_screen import focus, line_from, xdotool


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


def test_a_still_is_written_without_a_window(run: Run, tmp_path: Path) -> None:
    still = tmp_path / "p6.png"
    said = run("replay", SAMPLE, "--plan", PLAN, "--at", "P6", "--still", still)
    assert (said.exit_code, said.out.strip()) == (0, f"written to {still}".strip())
    assert still.stat().st_size > 10_000


@pytest.mark.parametrize(
    ("words", "told"),
    [
        ((SAMPLE,), "name its plan too"),
        ((SAMPLE, "--plan", PLAN, "--number", "9"), "has no swing 9; found: 1"),
        ((SAMPLE, "--plan", PLAN, "--speed", "0.3"), "none of 1, 0.5, 0.25, 0.125"),
        ((SAMPLE, "--plan", PLAN, "--at", "P66"), 'did you mean "P6"'),
        ((SAMPLE, "--plan", PLAN, "--together", "both"), "none of side by side, ghost, alone"),
    ],
)
def test_what_cannot_be_shown_is_told_in_a_line(
    words: tuple[str | Path, ...], told: str, run: Run, tmp_path: Path
) -> None:
    said = run("replay", *words, "--still", tmp_path / "x.png")
    assert told in said.line
    assert said.exit_code
    assert not (tmp_path / "x.png").exists()


def test_where_nothing_was_kept_there_is_nothing_to_replay(run: Run, tmp_path: Path) -> None:
    said = run("replay", "--keep", tmp_path)
    assert "nothing has been kept there yet" in said.line


@needs_xvfb
def test_keys_step_export_and_quit(tmp_path: Path) -> None:
    words = ["replay", str(SAMPLE), "-p", str(PLAN), "--at", "P6", "--out", str(tmp_path / "out")]
    code = f"from baycue.cli import main; main({words!r})"
    with (
        virtual_display() as display,
        subprocess.Popen(
            [sys.executable, "-c", code],
            env=environment(DISPLAY=display),
            stdout=subprocess.PIPE,
            text=True,
        ) as loop,
    ):
        assert line_from(loop.stdout, "window") == "window 1280 x 720 px through x11"
        focus(display)
        for key in ("Right", "o", "Next", "Prior", "t"):
            xdotool(display, "key", key)
        assert line_from(loop.stdout, "written to").endswith("replay-1.png")
        xdotool(display, "key", "t")
        assert line_from(loop.stdout, "written to").endswith("replay-2.png")
        xdotool(display, "key", "q")
        assert loop.wait(30) == 0
    stills = sorted(path.name for path in (tmp_path / "out").iterdir())
    assert stills == ["replay-1.png", "replay-2.png"]
