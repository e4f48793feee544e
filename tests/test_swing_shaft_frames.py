"""Which pictures about a moment show the shaft."""

import numpy as np
import pytest

from baycue.swing.shaft_frames import ShaftFrames

TIMES_S = np.array([0.0, 0.1, 0.2, 0.3, 0.4, 0.5])
SEEN = np.array([True, False, False, True, True, False])
FRAMES = ShaftFrames(TIMES_S, SEEN, np.zeros(6))


@pytest.mark.parametrize(
    ("time_s", "missed"), [(0.05, 2), (0.25, 2), (0.3, 0), (0.35, 0), (0.45, 1), (0.6, 1)]
)
def test_those_in_a_row_about_a_moment_that_do_not_show_it_are_counted(
    time_s: float, missed: int
) -> None:
    assert FRAMES.missed_about(time_s) == missed


def test_where_none_shows_it_all_are_missed() -> None:
    none = ShaftFrames(TIMES_S, np.zeros(6, dtype=bool), np.zeros(6))
    assert none.missed_about(0.25) == 6
