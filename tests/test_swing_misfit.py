"""How badly a curve fits what it was drawn through, about a moment."""

import numpy as np
import pytest

from baycue.swing.curve import Curve
from baycue.swing.misfit import AnglesSeen, misfit_deg

TIMES_S = np.linspace(0.0, 1.0, 101)
STRAIGHT = Curve(TIMES_S, 100.0 * TIMES_S, np.full(101, 100.0), np.ones(101))


def seen(off_deg: float, from_s: float = 0.0) -> AnglesSeen:
    """33 times a second, on the curve until ``from_s`` and then to either side of it."""
    times_s = np.arange(0.0, 1.0, 0.03)
    sides = np.where(np.arange(len(times_s)) % 2, off_deg, -off_deg)
    return AnglesSeen(times_s, 100.0 * times_s + sides * (times_s >= from_s))


@pytest.mark.parametrize("off_deg", [0.0, 3.0, 20.0])
def test_it_is_the_size_of_what_is_off(off_deg: float) -> None:
    assert misfit_deg(STRAIGHT, seen(off_deg), 0.5) == pytest.approx(off_deg, abs=1e-9)


def test_only_what_was_read_about_the_moment_counts() -> None:
    assert misfit_deg(STRAIGHT, seen(20.0, from_s=0.6), 0.4) == pytest.approx(0.0, abs=1e-9)
    assert misfit_deg(STRAIGHT, seen(20.0, from_s=0.6), 0.8) == pytest.approx(20.0)


def test_where_nothing_was_read_nothing_is_known_of_it() -> None:
    assert misfit_deg(STRAIGHT, AnglesSeen(np.array([]), np.array([])), 0.5) == 0.0
