"""Two looks at one swing that differ make what only the second tells less sure."""

import pytest

from baycue.swing.second_look import less_sure_if_moved
from baycue.swing.swing import Checkpoint, CheckpointName, Swing

MS = 1_000_000
P8 = Checkpoint(CheckpointName.P8, 1_050 * MS, 3 * MS)


def with_impact(at_ms: int) -> Swing:
    return Swing(1, (Checkpoint(CheckpointName.IMPACT, at_ms * MS, 2 * MS),))


@pytest.mark.parametrize(("moved_ms", "sigma_ms"), [(0, 3.0), (10, 5.0), (-10, 5.0)])
def test_the_spread_grows_by_how_far_impact_moved(moved_ms: int, sigma_ms: float) -> None:
    """3 and 0.4 of 10 make 5."""
    later = less_sure_if_moved(P8, with_impact(1_000), with_impact(1_000 + moved_ms))
    assert later.sigma_ns == sigma_ms * MS
    assert later.time_ns == P8.time_ns


def test_without_an_impact_in_both_nothing_is_known_of_it() -> None:
    assert less_sure_if_moved(P8, Swing(1, ()), with_impact(1_000)) == P8
    assert less_sure_if_moved(P8, with_impact(1_000), Swing(1, ())) == P8
