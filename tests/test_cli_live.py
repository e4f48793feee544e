"""The live commands as typed: what they refuse, and a recording played as if live."""

import pytest

from tests.command_line import PLAN, SAMPLE, Run


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


def test_devices_are_listed(run: Run) -> None:
    said = run("devices")
    assert said.exit_code == 0
    assert "camera" in said.out.lower()
    assert "sound" in said.out.lower()


@pytest.mark.parametrize(
    ("words", "exit_code", "told"),
    [
        (("--size", "large"), 2, "write it like 1280x720"),
        (("--feedback", "later"), 2, "allowed: at-once, delay:SECONDS, on-request"),
        (("--source", "gopher://x/y"), 3, "no address of a camera"),
        (("--source", "none.mp4"), 3, "no such file"),
        (("--plan", "none.yaml"), 4, "cannot be read"),
        (("--against", "none.mp4"), 3, "no such file"),
        (("--against", "none.json.gz"), 6, "cannot be read"),
    ],
)
def test_live_refuses_in_one_line_before_it_starts(
    run: Run, words: tuple[str, str], exit_code: int, told: str
) -> None:
    usual = {"--source": str(SAMPLE), "--plan": str(PLAN)} | {words[0]: words[1]}
    said = run("live", *(word for pair in usual.items() for word in pair))
    assert said.exit_code == exit_code
    assert told in said.line


def test_live_plays_a_recording_to_its_end(run: Run) -> None:
    said = run(
        *("live", "--source", SAMPLE, "--plan", PLAN, "--no-window", "--no-sound"),
    )
    assert said.exit_code == 0
    assert "as if live" in said.out
    assert "105 frames read" in said.out
