"""Two swings of unlike tempo shown at the same moments of the swing."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.replay.align import aligned
from baycue.swing.swing import CheckpointName as Name

HERE = {Name.TAKEAWAY: 1_000, Name.TOP: 1_900, Name.IMPACT: 2_200}
THERE = {Name.TAKEAWAY: 50_000, Name.P2: 50_400, Name.TOP: 50_700, Name.IMPACT: 51_000}


def test_shared_checkpoints_fall_together() -> None:
    alignment = aligned(HERE, THERE)
    for name, time_ns in HERE.items():
        assert alignment.there(time_ns) == THERE[name]


def test_in_between_it_is_in_proportion_and_outside_the_clocks_run_alike() -> None:
    alignment = aligned(HERE, THERE)
    assert alignment.there(1_450) == 50_350
    assert alignment.there(900) == 49_900
    assert alignment.there(2_300) == 51_100


def test_checkpoints_at_one_moment_count_once() -> None:
    with_address = {Name.ADDRESS: 1_000, **HERE}
    assert aligned(with_address, {Name.ADDRESS: 49_000, **THERE}).there(1_900) == 50_700


def test_swings_without_a_shared_checkpoint_are_refused() -> None:
    with pytest.raises(ValueError, match="share no checkpoint"):
        aligned({Name.TOP: 1}, {Name.IMPACT: 2})


@given(
    st.lists(st.integers(1, 10**9), min_size=3, max_size=3),
    st.lists(st.integers(1, 10**9), min_size=3, max_size=3),
    st.integers(0, 10**18),
)
def test_later_here_is_never_earlier_there(here: list[int], there: list[int], start: int) -> None:
    """Whatever the gaps, and with clocks that have run for years."""
    names = (Name.TAKEAWAY, Name.TOP, Name.IMPACT)
    times = [{n: start + sum(gaps[: k + 1]) for k, n in enumerate(names)} for gaps in (here, there)]
    alignment = aligned(*times)
    steps = range(start, start + sum(here) + 100, max(sum(here) // 50, 1))
    shown = [alignment.there(t) for t in steps]
    assert shown == sorted(shown)
