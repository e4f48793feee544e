"""A short campaign: damaged and hostile input of every kind, with the project's own errors alone.

The long one is ``python -m tests.fuzz.whole``; DEVELOPERS.md has its figures.
"""

from pathlib import Path

import pytest

from tests.fuzz.arena import Arena
from tests.fuzz.drawn import drawn

EXAMPLES = {"plan": 150, "sidecar": 120, "clip": 60, "log": 40, "name": 40}


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_but_our_own_errors_and_nothing_outside(name: str, tmp_path: Path) -> None:
    assert drawn(name, EXAMPLES[name], 0, Arena(tmp_path / "arena")) >= EXAMPLES[name]
