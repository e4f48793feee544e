"""``baycue log`` as typed."""

import csv
import json
from dataclasses import replace
from pathlib import Path

import pytest

from baycue.keep.folders import SessionFolder
from baycue.keep.kept_session import utc_now
from baycue.keep.place import Place
from baycue.keep.rescore import rescored
from baycue.plan.load import parse_plan
from baycue.verdict.verdict import Outcome
from tests.command_line import PLAN, PLANS, SAMPLE, Run, files
from tests.kept_swing import PLAN as KEPT_PLAN
from tests.kept_swing import PROBE, keep, swing_record
from tests.test_keep_check import filmed_swings

GO_COLUMNS = ("block", "block_title", "drill", "probe")


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


@pytest.fixture
def kept(tmp_path: Path) -> Path:
    place = Place(tmp_path / "kept")
    filmed_swings(place)
    filmed_swings(place, "Alder", 1)
    return place.folder


def test_sessions_and_swings_are_listed(run: Run, kept: Path) -> None:
    said = run("log", "sessions", "--keep", kept)
    assert said.exit_code == 0
    assert [line.split()[:2] for line in said.out.splitlines()[1:]] == [
        ["2", "Alder"],
        ["1", "Heron"],
    ]
    said = run("log", "swings", "1", "--keep", kept)
    assert said.out.count("FAIL") == 3
    assert "fail: knee past ankle at P6: 2.1 cm, 2.9 cm short of 5.0 cm" in said.out


def test_export_as_csv_has_a_line_for_each_answer(run: Run, kept: Path, tmp_path: Path) -> None:
    file = tmp_path / "swings.csv"
    assert run("log", "export", file, "--keep", kept, "--student", "Heron").exit_code == 0
    with file.open(encoding="utf-8-sig", newline="") as text:
        rows = list(csv.DictReader(text))
    assert len(rows) == 12
    assert rows[0]["target"] == "knee past ankle at P6"
    assert (float(rows[0]["value"]), rows[0]["unit"]) == (0.021, "m")
    assert {row["student"] for row in rows} == {"Heron"}


def test_export_as_json_lines_has_a_line_for_each_swing(
    run: Run, kept: Path, tmp_path: Path
) -> None:
    file = tmp_path / "swings.jsonl"
    assert run("log", "export", file, "--keep", kept).exit_code == 0
    swings = [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]
    assert [(s["student"], s["swing"]) for s in swings] == [
        ("Heron", 1),
        ("Heron", 2),
        ("Heron", 3),
        ("Alder", 1),
    ]
    assert len(swings[0]["answers"]) == 4
    assert swings[0]["answers"][2]["watch_only"] is True
    before = file.read_bytes()
    assert run("log", "export", file, "--keep", kept).exit_code == 6
    assert file.read_bytes() == before


def test_a_probe_is_told_in_the_list_in_exports_and_when_judged_again(
    run: Run, tmp_path: Path
) -> None:
    place = Place(tmp_path / "kept")
    place.folder.mkdir()
    keep(place, replace(swing_record(1), go=PROBE))
    keep(place, swing_record(2))
    said = run("log", "swings", "--keep", place.folder)
    assert "swing 1: FAIL, block 2, what stays: full swing, silent probe (no film)" in said.out
    assert "swing 2: FAIL (no film)" in said.out
    run("log", "export", tmp_path / "a.jsonl", "--keep", place.folder)
    lines = (tmp_path / "a.jsonl").read_text(encoding="utf-8").splitlines()
    marks = [[json.loads(line)[c] for c in GO_COLUMNS] for line in lines]
    assert marks == [[2, "what stays", "full swing", True], [None, None, None, False]]
    run("log", "export", tmp_path / "a.csv", "--keep", place.folder)
    with (tmp_path / "a.csv").open(encoding="utf-8-sig", newline="") as text:
        rows = {row["swing"]: [row[c] for c in GO_COLUMNS] for row in csv.DictReader(text)}
    assert rows == {"1": ["2", "what stays", "full swing", "1"], "2": ["", "", "", "0"]}
    plan = tmp_path / "easier.yaml"
    plan.write_text(KEPT_PLAN.replace("5 cm", "-40 cm"), encoding="utf-8")
    said = run("log", "rescore", "--plan", plan, "--keep", place.folder)
    assert "swing 1 (block 2, what stays: full swing, silent probe): fail -> pass" in said.out
    assert "swing 2: fail -> pass" in said.out


def test_a_name_that_a_spreadsheet_would_run_is_only_text(run: Run, tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    filmed_swings(place, "=1+1", 1)
    file = tmp_path / "swings.csv"
    run("log", "export", file, "--keep", place.folder)
    with file.open(encoding="utf-8-sig", newline="") as text:
        assert {row["student"] for row in csv.DictReader(text)} == {"'=1+1"}


def test_rescore_says_what_changes_and_changes_nothing(
    run: Run, kept: Path, tmp_path: Path
) -> None:
    plan = tmp_path / "easier.yaml"
    plan.write_text(KEPT_PLAN.replace("5 cm", "-40 cm"), encoding="utf-8")
    before = files(kept / "students")
    said = run("log", "rescore", "--plan", plan, "--keep", kept)
    assert said.exit_code == 0
    assert "3 of 3 swings judged again, 3 answered otherwise" in said.out
    assert "pass 0 -> 3, fail 3 -> 0" in said.out
    assert "knee past ankle at P6: fail -> pass" in said.out
    assert files(kept / "students") == before


@pytest.mark.parametrize(
    ("noted", "told"),
    [
        (1.0, "(band: 1 -> 1.3 sigmas)"),
        (None, "(band: not noted, 1 unless the plan gave another, -> 1.3 sigmas)"),
    ],
)
def test_rescore_tells_that_the_band_is_another(
    run: Run, tmp_path: Path, noted: float | None, told: str
) -> None:
    """Kept when the usual band was one sigma: the knee is then 1.15 sigmas short of its bound."""
    record = swing_record()
    assert record.scored is not None
    found = rescored(record, parse_plan(KEPT_PLAN, "plan.yaml"))
    assert found is not None
    (answer,) = found.after.targets
    assert answer.measurement is not None
    bound = answer.measurement.value + 1.15 * answer.measurement.sigma
    before = replace(answer, outcome=Outcome.FAIL, band=noted)
    verdict = replace(record.scored.verdict, outcome=Outcome.FAIL, targets=(before,))
    place = Place(tmp_path / "kept")
    place.folder.mkdir()
    keep(place, replace(record, scored=replace(record.scored, verdict=verdict)))
    plan = tmp_path / "as_then.yaml"
    plan.write_text(KEPT_PLAN.replace("5 cm", f"{bound:.6f} m"), encoding="utf-8")
    said = run("log", "rescore", "--plan", plan, "--keep", place.folder)
    assert "swing 1: fail -> too close to call" in said.out
    assert f"knee past ankle at P6: fail -> too close to call {told}" in said.out
    said = run("log", "swings", "--keep", place.folder)
    assert "swing 1: FAIL" in said.out, "what was told stays"


def test_a_plan_for_another_view_is_refused_swing_by_swing(run: Run, kept: Path) -> None:
    plan = PLANS / "down_the_line_head.yaml"
    said = run("log", "rescore", "--plan", plan, "--keep", kept, "--student", "Heron")
    assert said.exit_code == 0
    assert said.out.count("was filmed face-on, and the plan is down-the-line") == 3
    assert "0 of 3 swings judged again" in said.out


def test_films_are_made_small_once(run: Run, kept: Path) -> None:
    said = run("log", "compact", "--keep", kept)
    assert said.exit_code == 0
    assert "films made small: " in said.out
    assert not list(kept.rglob("*.mov"))
    again = run("log", "compact", "--keep", kept)
    assert "no film is to be made small" in again.out
    assert run("log", "check", "--films", "--keep", kept).exit_code == 0


def test_nobodys_films_are_made_small_while_somebody_plays(run: Run, kept: Path) -> None:
    playing = SessionFolder(Place(kept), "Alder", "a camera", utc_now())
    said = run("log", "compact", "--keep", kept)
    assert said.exit_code == 6
    assert "when nobody plays" in said.line
    assert not list(kept.rglob("*.mp4"))
    playing.close()


def test_check_and_repair(run: Run, kept: Path) -> None:
    said = run("log", "check", "--films", "--keep", kept)
    assert (said.exit_code, said.out.strip()) == (0, "4 swings and 4 films looked at: all whole")
    (kept / "log.sqlite").write_bytes(b"no database" * 500)
    said = run("log", "check", "--keep", kept)
    assert said.exit_code == 6
    assert "the log is damaged" in said.out
    said = run("log", "check", "--repair", "--keep", kept)
    assert said.exit_code == 0
    assert "4 swings put into the log from their sidecars" in said.out


def test_deleting_asks_and_without_an_answer_deletes_nothing(run: Run, kept: Path) -> None:
    before = files(kept / "students")
    for words in (("delete-student", "Heron"), ("retention", "--days", "0")):
        said = run("log", *words, "--keep", kept)
        assert said.exit_code == 2
        assert "nobody can be asked here" in said.line
    assert files(kept / "students") == before


def test_told_yes_it_deletes(run: Run, kept: Path) -> None:
    said = run("log", "retention", "--days", "0", "--keep", kept, "--yes")
    assert (said.exit_code, "4 films deleted" in said.out) == (0, True)
    assert list(kept.rglob("*.mov")) == []
    said = run("log", "delete-student", "Heron", "--keep", kept, "--yes")
    assert said.exit_code == 0
    assert [p.name[:5] for p in (kept / "students").iterdir()] == ["alder"]


@pytest.mark.parametrize(
    ("words", "exit_code", "told"),
    [
        (("sessions",), 6, "there is no log; nothing has been kept there yet"),
        (("check",), 6, "nothing has been kept there yet"),
        (("delete-student", "Heron"), 6, "nothing was deleted"),
        (("export", "swings.parquet"), 2, "allowed: .csv, .jsonl"),
        (("rescore", "--plan", "none.yaml"), 4, "cannot be read"),
    ],
)
def test_what_cannot_be_is_told_in_one_line(
    run: Run, tmp_path: Path, words: tuple[str, ...], exit_code: int, told: str
) -> None:
    said = run("log", *words, "--keep", tmp_path / "nowhere")
    assert said.exit_code == exit_code
    assert told in said.line


def test_an_unknown_student_is_answered_with_the_nearest(run: Run, kept: Path) -> None:
    said = run("log", "sessions", "--student", "Herron", "--keep", kept)
    assert (said.exit_code, 'did you mean "Heron"?' in said.line) == (6, True)


def test_live_says_what_is_kept_and_keeps_it(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "kept"
    words = ("live", "--source", SAMPLE, "--plan", PLAN, "--no-window", "--no-sound")
    said = run(*words, "--keep", folder)
    assert said.exit_code == 0
    assert "Film only who has agreed to it; children and other minors" in said.out
    assert str(folder) in said.out


def test_live_keeps_nothing_when_told_so(run: Run, tmp_path: Path) -> None:
    words = ("live", "--source", SAMPLE, "--plan", PLAN, "--no-window", "--no-sound")
    said = run(*words, "--keep", tmp_path / "kept", "--no-keep")
    assert said.exit_code == 0
    assert "filmed" not in said.out
    assert not (tmp_path / "kept").exists()


def test_a_folder_that_cannot_be_is_refused_before_live_starts(run: Run, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("a file")
    words = ("live", "--source", SAMPLE, "--plan", PLAN, "--no-window", "--no-sound")
    said = run(*words, "--keep", tmp_path / "file" / "kept")
    assert said.exit_code == 6
    assert "name another with --keep" in said.line
