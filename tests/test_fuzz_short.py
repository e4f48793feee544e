"""A short campaign: damaged and hostile input of every kind, with the project's own errors alone.

The long one is ``python -m tests.fuzz.campaign``; DEVELOPERS.md has its figures.
"""

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.fuzz.arena import Arena
from tests.fuzz.targets import target_named

EXAMPLES = {"plan": 150, "sidecar": 120, "clip": 60, "log": 40, "name": 40}


@pytest.mark.parametrize("name", EXAMPLES)
def test_nothing_but_our_own_errors_and_nothing_outside(name: str, tmp_path: Path) -> None:
    arena, target = Arena(tmp_path / "arena"), target_named(name)

    @settings(max_examples=EXAMPLES[name], deadline=None, suppress_health_check=list(HealthCheck))
    @given(st.integers(0, 2**31))
    def feed(number: int) -> None:
        target.takes(target.input(0, number), arena.clear())
        assert arena.touched() == ""

    feed()
