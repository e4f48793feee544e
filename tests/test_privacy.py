"""Nothing leaves the machine: no command tries to reach a network."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from baycue.keep.place import Place
from baycue.pose.unheard import NOWHERE, keep_to_itself
from tests.command_line import PLAN, PROJECT, SAMPLE
from tests.test_keep_check import filmed_swings

LIVE = ("live", "--source", str(SAMPLE), "--plan", str(PLAN), "--no-window", "--no-sound")


def tries(tmp_path: Path, *words: str) -> tuple[int, list[str]]:
    seen = tmp_path / "network.txt"
    seen.touch()
    done = subprocess.run(
        [sys.executable, "-m", "tests.audited", str(seen), *words],
        cwd=PROJECT,
        capture_output=True,
        env=os.environ | {"SDL_VIDEODRIVER": "dummy", "SDL_AUDIODRIVER": "dummy"},
    )
    return done.returncode, seen.read_text(encoding="utf-8").splitlines()


@pytest.mark.parametrize(
    "words",
    [
        ("score", str(SAMPLE), "--plan", str(PLAN), "--table-only"),
        ("demo", "--hold", "0", "--out", "{tmp}/out"),
        (*LIVE, "--keep", "{tmp}/kept"),
        ("log", "sessions", "--keep", "{tmp}/kept"),
        ("log", "check", "--films", "--keep", "{tmp}/kept"),
        ("log", "export", "{tmp}/swings.csv", "--keep", "{tmp}/kept"),
        ("log", "note", "1", "head still", "--keep", "{tmp}/kept"),
        ("log", "compact", "--keep", "{tmp}/kept"),
        ("log", "rescore", "--plan", str(PLAN), "--keep", "{tmp}/kept"),
        ("log", "delete-student", "Heron", "--yes", "--keep", "{tmp}/kept"),
    ],
    ids=lambda words: " ".join(words[:2]) if words[0] == "log" else words[0],
)
def test_no_command_tries_to_reach_a_network(words: tuple[str, ...], tmp_path: Path) -> None:
    filmed_swings(Place(tmp_path / "kept"))
    exit_code, seen = tries(tmp_path, *(word.format(tmp=tmp_path) for word in words))
    assert (exit_code, seen) == (0, [])


STRACE = ("strace", "-f", "-qq", "-e", "signal=none", "-s", "120", "-e", "trace=network", "-o")


@pytest.mark.skipif(shutil.which("strace") is None, reason="strace shows what C libraries do")
def test_the_pose_model_reaches_nobody(tmp_path: Path) -> None:
    """MediaPipe 1.2.3, left alone, looks up play.googleapis.com and would send there."""
    calls = tmp_path / "calls.txt"
    words = [*STRACE, str(calls), sys.executable, "-m", "tests.pose_then_wait"]
    done = subprocess.run(words, cwd=PROJECT, capture_output=True)
    if not calls.exists() or "ptrace" in done.stderr.decode():
        pytest.skip("strace may not trace here")
    assert done.returncode == 0
    lines = calls.read_text(encoding="utf-8", errors="replace").splitlines()
    outward = [line for line in lines if "sa_family=AF_INET" in line and "127.0.0.1" not in line]
    assert outward == []
    assert [line for line in lines if "googleapis" in line] == []


@pytest.mark.parametrize(
    ("before", "after"),
    [
        ({}, None),
        ({"no_proxy": "*"}, ""),
        ({"no_proxy": "localhost,.googleapis.com,com"}, "localhost"),
        ({"no_proxy": "192.168.1.20"}, "192.168.1.20"),
    ],
)
def test_no_setting_of_the_user_lets_it_by(before: dict[str, str], after: str | None) -> None:
    environment = {"https_proxy": "http://proxy.example:3128", **before}
    keep_to_itself(environment)
    assert environment["https_proxy"] == environment["HTTPS_PROXY"] == NOWHERE
    assert environment.get("no_proxy") == after


ASKING = """
import sys
from pathlib import Path
from urllib.request import urlopen
from tests.audited import write_down_tries
write_down_tries(Path(sys.argv[1]))
try:
    urlopen("http://127.0.0.1:9/")
except OSError:
    pass
"""


def test_such_a_try_would_be_seen(tmp_path: Path) -> None:
    seen = tmp_path / "network.txt"
    subprocess.run([sys.executable, "-c", ASKING, str(seen)], cwd=PROJECT, check=True)
    assert "socket.connect" in seen.read_text(encoding="utf-8")
