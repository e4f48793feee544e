"""All fuzzing as one program: what it counts is what each program counted at its end."""

from pathlib import Path

import pytest

from tests.fuzz import whole
from tests.fuzz.targets import NAMES


def test_every_target_is_fed_in_every_way_that_takes_it(tmp_path: Path) -> None:
    every = list(whole.runs(100_000, 1, tmp_path))
    ways = {way: {r.target for r in every if r.way == way} for way in whole.WAYS}
    assert ways == {"campaign": {*NAMES}, "drawn": {*NAMES}, "guided": {*NAMES} - {"name"}}
    counts = [int(r.arguments[r.arguments.index("--inputs") + 1]) for r in every]
    assert sum(counts) >= 100_000


def test_counts_are_the_programs_own(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    words = ["--inputs", "20", "--seed", "5", "--way", "campaign", "--target", "name"]
    assert whole.main([*words, "--out", str(tmp_path)]) == 0
    share = round(20 * 0.03)
    assert f"{share} inputs, 0 of 1 programs found something" in capsys.readouterr().out


def test_one_that_fails_counts_as_none(tmp_path: Path) -> None:
    wrong = whole.Run("drawn", "name", ("no such target",), r"(\d+)")
    assert wrong.fed(tmp_path) is None
    other = whole.Run("drawn", "name", ("--help",), r"^never in it (\d+)")
    assert other.fed(tmp_path) is None
