"""The recipes of DEVELOPERS.md, followed to the letter in a copy of the tree."""

import re
import sys
from pathlib import Path

import pytest

from tests.typed_off import Recipe, copied_tree, recipe, typed, write_files

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="the lines are a shell's")


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return copied_tree(tmp_path_factory.mktemp("contributor"))


def followed(written: Recipe, tree: Path) -> list[str]:
    """What each line said, all files written and found in order by the linter."""
    write_files(written, tree)
    code = " ".join(place for place in written.files if place.endswith(".py"))
    typed(f"python -m ruff check {code} && python -m ruff format --check {code}", tree)
    return [typed(line, tree) for line in written.lines]


@pytest.mark.parametrize("title", ["a measure", "a cue", "a camera", "a drill"])
def test_a_recipe_is_one_file_of_the_program_and_its_test(title: str) -> None:
    places = list(recipe(title).files)
    assert [place.partition("/")[0] for place in places[:2]] == ["baycue", "tests"]
    assert all("/" not in place for place in places[2:]), "only a plan to try it with"
    assert any(places[1] in line for line in recipe(title).lines)


def test_a_measure_is_listed_and_judged(tree: Path) -> None:
    tested, listed, scored = followed(recipe("a measure"), tree)
    assert "6 passed" in tested
    assert "shoulder tilt" in listed
    judged = r"^\W*(pass|fail|too close to call)\b.*shoulder tilt at P6"
    assert re.search(judged, scored, re.IGNORECASE | re.MULTILINE), scored


def test_a_cue_plays(tree: Path) -> None:
    tested, played = followed(recipe("a cue"), tree)
    assert re.search(r"\d passed", tested)
    assert all(f"{outcome}: 0." in played for outcome in ("pass", "fail", "too close to call"))


def test_a_camera_opens(tree: Path) -> None:
    (tested,) = followed(recipe("a camera"), tree)
    assert "2 passed" in tested


def test_a_drill_runs(tree: Path) -> None:
    tested, checked = followed(recipe("a drill"), tree)
    assert "1 passed" in tested
    assert "mistake" not in checked.lower()
