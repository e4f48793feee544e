"""What the coach says of a session: kept in a file, in the log, in exports, in the report."""

import csv
import json
from pathlib import Path

import pytest

from baycue.coach_report.from_log import practice_of
from baycue.coach_report.page import report_page
from baycue.errors import KeptError
from baycue.keep import pages
from baycue.keep.check import check, repair
from baycue.keep.forget import belongings, forget
from baycue.keep.log import SwingLog
from baycue.keep.notes import LONGEST, Note, add_note, read_note, write_note
from baycue.keep.place import Place
from tests.command_line import Run
from tests.test_keep_check import filmed_swings, one

SAID = "Ball too far back; next time <alignment> first"
MORE = "Für Montag: der Kopf bleibt"


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


@pytest.fixture
def place(tmp_path: Path) -> Place:
    found = Place(tmp_path / "kept")
    filmed_swings(found, swings=2)
    return found


def noted(run: Run, place: Place, *texts: str) -> None:
    for text in texts:
        assert run("log", "note", "1", text, "--keep", place.folder).exit_code == 0


def notes(place: Place) -> list[str]:
    with SwingLog(place.log) as log:
        return [note.text for note in pages.notes_of_session(log, 1)]


def test_a_note_is_kept_in_a_file_and_in_the_log(run: Run, place: Place) -> None:
    noted(run, place, SAID, MORE)
    assert notes(place) == [SAID, MORE]
    assert read_note(one(place, "note_001.json")).text == SAID
    assert check(place).wrong == []
    said = run("log", "swings", "1", "--keep", place.folder)
    assert SAID in said.out


def test_a_log_made_anew_has_the_notes_again(run: Run, place: Place) -> None:
    noted(run, place, SAID, MORE)
    for path in place.folder.glob("log.sqlite*"):
        path.unlink()
    repair(place)
    assert notes(place) == [SAID, MORE]
    repair(place)
    assert notes(place) == [SAID, MORE], "each once"


def test_exports_have_them(run: Run, place: Place, tmp_path: Path) -> None:
    noted(run, place, SAID, MORE)
    for name in ("swings.csv", "swings.jsonl"):
        assert run("log", "export", tmp_path / name, "--keep", place.folder).exit_code == 0
    with (tmp_path / "swings.csv").open(encoding="utf-8-sig", newline="") as file:
        rows = list(csv.DictReader(file))
    assert {row["session_notes"] for row in rows} == {f"{SAID} / {MORE}"}
    lines = (tmp_path / "swings.jsonl").read_text(encoding="utf-8").splitlines()
    assert [json.loads(line)["session_notes"] for line in lines] == [[SAID, MORE]] * 2


def test_the_report_has_them(run: Run, place: Place) -> None:
    noted(run, place, SAID)
    record = practice_of(place, "Heron")
    assert record.sessions[0].coach_notes == (SAID,)
    page = report_page(record, {}, "made by a test")
    assert "Ball too far back; next time &lt;alignment&gt; first" in page
    text = run("report", "Heron", "--text", "--keep", place.folder)
    assert "Ball too far back" in text.out


def test_nothing_of_a_deleted_students_notes_is_left(run: Run, place: Place) -> None:
    noted(run, place, SAID)
    forget(place, belongings(place, "Heron"))
    left = [path for path in place.folder.rglob("*") if path.is_file()]
    assert not [path for path in left if b"too far back" in path.read_bytes()]


def test_a_note_is_never_overwritten(place: Place) -> None:
    folder = one(place, "session.json").parent.relative_to(place.folder).as_posix()
    files = [write_note(place, folder, Note("2026-11-26T12:00:00.000Z", t)) for t in "ab"]
    assert [read_note(place.inside(file)).text for file in files] == ["a", "b"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("1", "  "), "a note has 1 to"),
        (("1", "x" * (LONGEST + 1)), "this one has 4001"),
        (("9", "hello"), "there is no session 9"),
    ],
)
def test_what_cannot_be_noted_is_told(
    words: tuple[str, str], told: str, run: Run, place: Place
) -> None:
    said = run("log", "note", *words, "--keep", place.folder)
    assert told in said.line
    assert notes(place) == []


def test_a_damaged_note_is_told_of(place: Place, tmp_path: Path) -> None:
    bad = tmp_path / "note_001.json"
    bad.write_text("{")
    with pytest.raises(KeptError, match="damaged"):
        read_note(bad)
    with SwingLog(place.log) as log:
        assert not add_note(log, "no/such/session", "file", Note("", "hello"))
