"""The fuzzing led by coverage runs, for as long as a test may take."""

import subprocess
import sys
from pathlib import Path

import pytest

pytest.importorskip("atheris", reason="atheris is not installed: nothing was fuzzed by coverage")


@pytest.mark.parametrize("target", ["plan", "sidecar"])
def test_a_few_inputs_find_nothing(target: str, tmp_path: Path) -> None:
    words = [target, "--inputs", "200", "--seed", "3", "--out", str(tmp_path)]
    done = subprocess.run(
        [sys.executable, "-m", "tests.fuzz.guided", *words],
        capture_output=True,
        text=True,
        timeout=300,
        check=False,
    )
    assert done.returncode == 0, done.stderr[-3000:]
    assert "number_of_executed_units: 200" in done.stderr
    assert list(tmp_path.iterdir()) == []
