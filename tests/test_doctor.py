"""What the doctor says of a machine, well and ill."""

import subprocess
import sys
from pathlib import Path

import pytest

from baycue.capture.devices import CameraDevice
from baycue.doctor import checks, packages
from baycue.pose.model_file import checked, model_bytes
from baycue.setup.report import Answer
from tests.command_line import Run
from tests.test_cues_display import environment, needs_xvfb, virtual_display


def test_python_libraries_and_model_of_this_machine_are_fit() -> None:
    packages_too = (packages.libraries, packages.versions, packages.one_opencv)
    for check in (checks.python, *packages_too, checks.model, checks.pose):
        row = check()
        assert (row.answer, row.do) == (Answer.GO, ""), row


def test_a_damaged_model_is_told() -> None:
    row = checks.model(lambda: checked(model_bytes()[:-1], "pose.task"))
    assert row.answer is Answer.NO_GO
    assert "not the pose model shipped" in row.found
    assert "Install Baycue again" in row.do


def test_a_disk_with_room_goes_and_nothing_is_left_there(tmp_path: Path) -> None:
    row = checks.disk(tmp_path / "not" / "there" / "yet", lambda _: 5 << 30)
    assert row.answer is Answer.GO
    assert row.found == f"5.4 GB free at {tmp_path}"
    assert list(tmp_path.iterdir()) == []


def test_a_full_disk_and_a_place_that_cannot_be_written_do_not(tmp_path: Path) -> None:
    assert "free some space" in checks.disk(tmp_path, lambda _: 1 << 20).do
    (tmp_path / "file").touch()
    row = checks.disk(tmp_path / "file", lambda _: 5 << 30)
    assert row.answer is Answer.NO_GO
    assert "--no-keep" in row.do


def test_cameras_are_named_or_how_to_do_without() -> None:
    row = checks.camera(lambda: (CameraDevice(2, "Bay camera"),))
    assert (row.answer, row.found) == (Answer.GO, '2 "Bay camera"')
    none = checks.camera(lambda: ())
    assert none.answer is Answer.UNSURE
    assert "--source" in none.do


SHOW = (
    "from baycue.doctor.checks import display; row = display(); print(row.answer.name, row.found)"
)


def _display(**changes: str) -> str:
    words = [sys.executable, "-c", SHOW]
    done = subprocess.run(
        words, env=environment(**changes), capture_output=True, text=True, timeout=60, check=True
    )
    return done.stdout.splitlines()[-1]


def test_without_a_screen_it_is_told() -> None:
    assert _display() == "UNSURE no window: neither DISPLAY nor WAYLAND_DISPLAY is set"


@needs_xvfb
def test_with_a_screen_a_window_is_really_opened() -> None:
    with virtual_display() as display:
        assert _display(DISPLAY=display) == "GO window 320 x 180 px through x11"


def test_the_command_prints_a_row_a_matter(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    said = Run(capsys)("doctor", "--keep", tmp_path)
    assert said.exit_code == 0
    for matter in (
        "Python",
        "libraries",
        "versions",
        "pose model",
        "screen",
        "sound",
        "camera",
        "disk",
    ):
        assert matter in said.out
