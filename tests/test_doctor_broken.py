"""The doctor on machines that are really broken, each in one way, and what it says to do."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from baycue.doctor import checks, packages
from baycue.pose.model_file import MODEL_NAME
from baycue.setup.report import Answer
from tests.command_line import PROJECT
from tests.test_cues_display import environment

ON_LINUX = pytest.mark.skipif(sys.platform != "linux", reason="broken the Linux way")


def installed(folder: Path, name: str, version: str) -> None:
    """What pip would leave of a package of that version; found first, being first on the path."""
    records = folder / f"{name.replace('-', '_')}-{version}.dist-info"
    records.mkdir()
    (records / "METADATA").write_text(f"Metadata-Version: 2.1\nName: {name}\nVersion: {version}\n")


def test_an_old_package_is_named_with_the_line_that_mends_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    installed(tmp_path, "mediapipe", "0.10.18")
    monkeypatch.syspath_prepend(tmp_path)
    row = packages.versions()
    assert (row.answer, row.found) == (Answer.NO_GO, "mediapipe 0.10.18")
    assert row.do == "In Baycue's environment: pip install 'mediapipe<2,>=1.2'"


def test_a_package_too_new_is_named_too(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    installed(tmp_path, "mediapipe", "2.0.1")
    monkeypatch.syspath_prepend(tmp_path)
    assert packages.versions().found == "mediapipe 2.0.1"


def test_two_opencvs_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    installed(tmp_path, "opencv-python", "4.10.0.84")
    monkeypatch.syspath_prepend(tmp_path)
    row = packages.one_opencv()
    assert (row.answer, row.found) == (Answer.NO_GO, "opencv-python, opencv-contrib-python")
    assert "uninstall" in row.do


def test_a_library_that_the_system_lacks_is_told_with_the_line_that_gets_it() -> None:
    error = "libGL.so.1: cannot open shared object file: No such file or directory"
    do = packages.lacking(error)
    assert do.startswith("This system lacks libGL.so.1; on Debian or Ubuntu: apt-get install ")
    assert set(do.split()) >= {"libgl1", "libegl1", "libgles2", "libglib2.0-0"}


@ON_LINUX
def test_a_full_disk_is_told(tmp_path: Path) -> None:
    """A file system of 64 kB, filled, in a mount namespace of the child's own."""
    show = (
        "from pathlib import Path; from baycue.doctor.checks import disk; import sys;"
        "row = disk(Path(sys.argv[1])); print(row.answer.name, row.found, row.do)"
    )
    line = (
        f"mount -t tmpfs -o size=64k baycue {tmp_path} || exit 77; "
        f"head -c 65536 /dev/zero > {tmp_path}/full; exec {sys.executable} -c '{show}' {tmp_path}"
    )
    words = ["unshare", "--mount", "--map-root-user", "sh", "-c", line]
    if shutil.which("unshare") is None:
        pytest.skip("unshare is not installed")
    done = subprocess.run(words, capture_output=True, text=True, timeout=300, check=False)
    if done.returncode == 77 or "unshare" in done.stderr:
        pytest.skip(f"no file system can be mounted here: {done.stderr}")
    assert done.stdout.startswith(f"NO_GO 0.0 GB free at {tmp_path} Films need 1 GB"), done


@pytest.fixture(scope="module")
def cut_short(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A copy of the package whose pose model's second half was lost on the way."""
    folder = tmp_path_factory.mktemp("cut")
    shutil.copytree(PROJECT / "baycue", folder / "baycue")
    os.truncate(folder / "baycue/pose/data" / MODEL_NAME, 4_000_000)
    return folder


@ON_LINUX
def test_a_machine_without_screen_sound_and_whole_model_hears_what_to_do(
    cut_short: Path, tmp_path: Path
) -> None:
    """The command as typed, its model cut short, no display and no sound server to be found."""
    bare = environment(
        PYTHONPATH=str(cut_short),
        COLUMNS="300",
        HOME=str(tmp_path),
        PULSE_SERVER="unix:/nowhere",
    )
    done = subprocess.run(
        [sys.executable, "-m", "baycue.cli", "doctor", "--keep", str(tmp_path)],
        env=bare,
        cwd=tmp_path,
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    rows = {
        cells[0].strip(): [cell.strip() for cell in cells[1:]]
        for cells in (line.strip("│").split("│") for line in done.stdout.splitlines())
        if len(cells) == 4
    }
    assert done.returncode == 2, done
    assert rows["pose model"][0] == "no-go"
    assert "not the pose model shipped" in rows["pose model"][1]
    assert rows["pose model"][2] == packages.INSTALL_AGAIN == rows["pose"][2]
    assert rows["screen"][1] == "no window: neither DISPLAY nor WAYLAND_DISPLAY is set"
    assert "log in at a screen" in rows["screen"][2]
    if rows["sound"][0] != "go":  # a card of the machine's own stays
        assert "the screen answers alone" in rows["sound"][2]
    assert rows["Python"][0] == rows["versions"][0] == "go"
    assert "2 to mend" in done.stdout


def test_without_portaudio_the_line_that_gets_it_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    """An import of ``sounddevice`` fails with OSError where the library is missing."""

    class Missing:
        def find_spec(self, name: str, *_: object) -> None:
            if name == "sounddevice":
                raise OSError("PortAudio library not found")

    monkeypatch.delitem(sys.modules, "sounddevice", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing(), *sys.meta_path])
    row = checks.sound()
    assert row.answer is Answer.UNSURE
    assert "apt-get install libportaudio2" in row.do
