"""Run the command line in this process and see what it says."""

import hashlib
from dataclasses import dataclass
from pathlib import Path

import pytest

from baycue.cli import main

PROJECT = Path(__file__).parent.parent
SAMPLES = PROJECT / "sample_recordings"
PLANS = PROJECT / "configs"
SAMPLE = SAMPLES / "knee_fail_30fps.mp4"
PLAN = PLANS / "right_hander_knee_head_tempo.yaml"


@dataclass(frozen=True)
class Said:
    """What a command said and how it ended."""

    exit_code: int
    out: str
    err: str

    @property
    def line(self) -> str:
        """The one line of the error."""
        assert self.err.count("\n") == 1, self.err
        assert self.err.startswith("baycue: ")
        return self.err.strip()


class Run:
    """Runs ``baycue`` with some words; a test asks for it by the fixture ``run``."""

    def __init__(self, capsys: pytest.CaptureFixture[str]) -> None:
        self._capsys = capsys

    def __call__(self, *words: str | Path) -> Said:
        """The program's exit code and output; any exception but SystemExit is the test's."""
        self._capsys.readouterr()
        with pytest.raises(SystemExit) as ended:
            main([str(word) for word in words])
        said = self._capsys.readouterr()
        assert isinstance(ended.value.code, int)
        return Said(ended.value.code, said.out, said.err)


def files(folder: Path) -> dict[Path, str]:
    """Every file under a folder with the digest of its contents."""
    return {
        path: hashlib.sha256(path.read_bytes()).hexdigest()
        for path in sorted(folder.rglob("*"))
        if path.is_file()
    }
