"""The rehearsal with everything at once: what its camera shows, and that it sees what is wrong."""

from pathlib import Path

import cv2
import numpy as np
import pytest

from baycue.keep.compact import compact, large_films
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.rehearsal.practice_left import left_wrong
from baycue.rehearsal.practice_show import FPS, SWINGS, TEE, swings_sent, watching_order
from tests.kept_swing import swing_record
from tests.test_keep_check import filmed_swings, flip, one

FRAMES = {TEE: 260, **dict.fromkeys(SWINGS, 105)}
IMPACTS = dict.fromkeys(SWINGS, 59)


def told(swings: int = 2) -> list[tuple[int, str]]:
    """The verdicts as a terminal tells them."""
    scored = swing_record(1).scored
    assert scored is not None
    return [(n + 1, scored.verdict.outcome.value.upper()) for n in range(swings)]


@pytest.fixture
def place(tmp_path: Path) -> Place:
    found = Place(tmp_path / "kept")
    filmed_swings(found, swings=2)
    with SwingLog(found.log) as log:
        compact(found, large_films(log))
    return found


@pytest.fixture
def still(tmp_path: Path) -> Path:
    (tmp_path / "exported").mkdir()
    path = tmp_path / "exported" / "swing_001-1.png"
    cv2.imwrite(str(path), np.full((48, 64, 3), 90, np.uint8))
    return path


def test_the_golfer_watches_for_a_while_after_each_ball() -> None:
    order = watching_order(FRAMES)
    assert swings_sent(order, IMPACTS, len(order)) == 2
    impacts = [k for k, cut in enumerate(order) if IMPACTS.get(cut.clip) == cut.frame]
    swing_begins = [k for k, cut in enumerate(order) if cut.frame == 30]
    watched = min(k for k in swing_begins if k > impacts[0]) - impacts[0]
    assert watched > 15 * FPS


def test_all_that_is_as_it_should_be_is_not_told(place: Place, still: Path) -> None:
    assert left_wrong(place, still.parent, told(), [f"written to {still}"]) == []


def test_what_is_wrong_is_told(place: Place, still: Path) -> None:
    flip(one(place, "swing_002.mp4"))
    one(place, "swing_001.mp4").with_suffix(".mov.partial").touch()
    lost, half = still.with_name("swing_001-1.mp4"), still.with_name("swing_001-1.gif.partial")
    half.touch()
    wrong = left_wrong(place, still.parent, told(3), [f"written to {p}" for p in (still, lost)])
    assert [line for line in wrong if "swing_002.mp4: damaged" in line]
    assert f"{lost}: was told of and does not play" in wrong
    assert f"{half}: is there, and was not told of" in wrong
    assert [line for line in wrong if line.endswith("swing_001.mov.partial: is not whole")]
    assert [line for line in wrong if line.startswith("swing 3: told ")]


def test_a_film_that_was_left_large_is_told(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    filmed_swings(place, swings=1)
    wrong = left_wrong(place, tmp_path / "none", told(1), [])
    assert "swing_001.mov: was not made small" in wrong[0]
