"""Which kept swings a live swing may be compared with."""

from pathlib import Path

import pytest

from baycue.errors import FilmGoneError
from baycue.keep.place import Place
from baycue.replay.kept import earlier_by_plan
from tests.test_keep_check import filmed_swings

PLAN_NAME = "heron_knee"


def test_those_of_the_student_by_the_plan_before_it_the_newest_first(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    assert earlier_by_plan(place, "Heron", PLAN_NAME) == ()
    filmed_swings(place, "Alder", 1)
    first, now = filmed_swings(place, "Heron", 2), filmed_swings(place, "Heron", 3)
    names = [o.name for o in earlier_by_plan(place, "Heron", PLAN_NAME, (now.folder,), 3)]
    told = [(name.split(", ")[0], name.split(", ")[1]) for name in names]
    wanted = [(now.folder, 2), (now.folder, 1), (first.folder, 2), (first.folder, 1)]
    assert told == [(folder.name, f"swing {number}") for folder, number in wanted]
    assert earlier_by_plan(place, "Heron", "another_plan") == ()
    assert earlier_by_plan(place, "Wren", PLAN_NAME) == ()


def test_each_is_read_when_it_is_wanted(tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    filmed_swings(place, "Heron", 1)
    (other,) = earlier_by_plan(place, "Heron", PLAN_NAME)
    with pytest.raises(FilmGoneError, match="shows nothing of swing 1"):
        other.film()  # its stamps are another time's
