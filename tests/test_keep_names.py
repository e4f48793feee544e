"""No student's name leads out of the folder, or to a name that some system refuses."""

import re
from pathlib import Path, PureWindowsPath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.errors import KeptError
from baycue.keep.names import folder_name
from baycue.keep.place import Place, default_folder

NASTY = [
    "..",
    "../../etc/passwd",
    "..\\..\\Windows",
    "/absolute",
    "C:\\Users",
    "C:",
    "\\\\server\\share",
    "CON",
    "nul",
    "COM1",
    "aux.txt",
    "Heron.",
    "Heron ",
    " ",
    "",
    "a\x00b",
    "a\nb",
    "<|>?*:",
    "~root",
    "$(rm -rf)",
    "Ünïcødé",
    "鷺",
    "🏌️",
    "x" * 400,
    "\ud800",
]


@pytest.mark.parametrize("name", NASTY)
def test_nasty_names_stay_inside(name: str, tmp_path: Path) -> None:
    place = Place(tmp_path)
    folder = place.student(name)
    folder.mkdir(parents=True)
    assert folder.resolve().parent == place.students.resolve()
    assert re.fullmatch(r"[a-z0-9_]+-[0-9a-f]{8}", folder.name)
    assert not PureWindowsPath(folder.name).is_reserved()


@given(st.text())
def test_any_name_is_safe(name: str) -> None:
    assert re.fullmatch(r"[a-z0-9][a-z0-9_]*-[0-9a-f]{8}", folder_name(name))


def test_all_nasty_names_are_kept_apart() -> None:
    assert len({folder_name(name) for name in NASTY}) == len(NASTY)
    assert folder_name("Heron") != folder_name("heron")
    assert folder_name("Heron").startswith("heron-")


@pytest.mark.parametrize("name", ["../x", "/etc/passwd", "a/../../x"])
def test_names_in_the_log_lead_nowhere_else(name: str, tmp_path: Path) -> None:
    with pytest.raises(KeptError, match="lies outside"):
        Place(tmp_path).inside(name)


def test_the_default_folder_follows_each_system() -> None:
    home = Path("/home/heron")
    assert default_folder("linux", {}, home) == home / ".local/share/baycue"
    assert default_folder("linux", {"XDG_DATA_HOME": "/data"}, home) == Path("/data/baycue")
    assert default_folder("linux", {"XDG_DATA_HOME": "relative"}, home) == (
        home / ".local/share/baycue"
    )
    assert default_folder("darwin", {}, home) == home / "Library/Application Support/Baycue"
    assert default_folder("win32", {"LOCALAPPDATA": "/local"}, home) == Path("/local/Baycue")
