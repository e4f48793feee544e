"""What the campaigns found, each with its input: an error of ours, and nothing touched."""

import gzip
import json
import re
import sqlite3
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from baycue.capture.recording import RecordingSource
from baycue.commands.keeping import Keeping, KeepRequest
from baycue.errors import BaycueError, KeptError, OutputError
from baycue.keep.folders import read_facts
from baycue.keep.kept_session import KeptSession
from baycue.keep.log import SwingLog
from baycue.keep.place import Place
from baycue.keep.pseudonym import refuse_unkeepable
from baycue.keep.retention import delete_films, films
from baycue.keep.sidecar import unpacked
from tests.command_line import Run
from tests.fuzz import clips, logs, sidecars
from tests.kept_swing import keep, session_facts, swing_record, with_film

UNDECODABLE = b"bird\xff".decode("utf-8", "surrogateescape")
NO_ARRAY = {"dtype": "f8,,", "shape": [-1], "base64": "AAAAAAAAAAA="}
TIMES = {"dtype": "<M8[ns]", "shape": [33, 2], "base64": "AAAA" * 176}


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


def sidecar_with(value: object, *path: str | int) -> bytes:
    """The seed's sidecar with another value in one place."""
    document = json.loads(sidecars.seed_text())
    here: Any = document
    for part in path[:-1]:
        here = here[part]
    here[path[-1]] = value
    return gzip.compress(json.dumps(document).encode())


POSE = ("swing", "scored", "evidence", "poses", 0)


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (gzip.compress(b"[" * 200_000), "nested too deep"),
        (sidecar_with(float("inf"), "version"), "is no swing's sidecar"),
        (sidecar_with(10**25, "swing", "number"), "number: has a number of 26 digits"),
        (sidecar_with(10**400, "swing", "software_ms"), "has a number of 401 digits"),
        (sidecar_with("\ud800", "swing", "student"), "student: '\\ud800' is no text"),
        (sidecar_with("../../../log.sqlite", "swing", "film", "file"), "is not the film of"),
        (sidecar_with("/etc/passwd", "swing", "film", "file"), "is not the film of"),
        (sidecar_with("swing_001.json.gz", "swing", "film", "file"), "is not the film of"),
        (sidecar_with(NO_ARRAY, *POSE, "pixels"), "pixels: is no array"),
        (sidecar_with(TIMES, *POSE, "pixels"), "pixels: is no array"),
        (sidecar_with({}, *POSE, "visibility"), "visibility: is no array"),
        (sidecar_with([], "swing", "scored", "evidence", "poses"), "poses: there are none"),
        (sidecar_with(-178, "swing", "scored", "evidence", "stature_m"), "is no golfer's"),
        (sidecar_with(0, "swing", "scored", "evidence", "camera", "width_px"), "a picture of 0 x"),
    ],
)
def test_a_sidecar_of_no_swing_is_refused(data: bytes, told: str) -> None:
    with pytest.raises(KeptError, match=re.escape(told)):
        unpacked(data, "swing_001.json.gz")


def test_a_clip_whose_tags_are_no_text_is_played(tmp_path: Path) -> None:
    whole = clips.seed(2)
    assert b"00:00:00." in whole
    path = tmp_path / "swing.mkv"
    path.write_bytes(whole.replace(b"00:00:00.", b"0\xff:00:00."))
    with RecordingSource(path) as source:
        assert sum(1 for _ in source) == source.frame_count


def damaged_name(data: bytes) -> bytes:
    return data.replace(b"CREATE TABLE answers", b"CREATE TABLE \xf4nswers")


def rewritten(sql: str) -> Callable[[bytes], bytes]:
    def rewrite(data: bytes) -> bytes:
        connection = sqlite3.connect(":memory:", isolation_level=None)
        connection.deserialize(data)
        connection.executescript(sql)
        return connection.serialize()

    return rewrite


ENDLESS = (
    "DROP TABLE answers; CREATE VIEW answers AS WITH RECURSIVE c(x) AS (SELECT 1 UNION ALL "
    "SELECT x + 1 FROM c) SELECT x AS swing_id, x AS place FROM c"
)


@pytest.mark.parametrize(
    ("harm", "told"),
    [
        (damaged_name, "the log is damaged"),
        (rewritten(ENDLESS), '"answers" in it is not as Baycue made it'),
        (rewritten("DROP TABLE plans; CREATE TABLE plans (id)"), '"plans" in it is not'),
        (rewritten("CREATE TRIGGER t AFTER INSERT ON swings BEGIN SELECT 1; END"), '"t" in it'),
        (rewritten("PRAGMA user_version = -3"), "in it is not as Baycue made it"),
        (rewritten("ALTER TABLE swings ADD COLUMN more TEXT"), '"swings" in it is not'),
    ],
)
def test_a_log_that_is_not_as_we_made_it_is_refused(
    harm: Callable[[bytes], bytes], told: str, tmp_path: Path
) -> None:
    path = tmp_path / "log.sqlite"
    path.write_bytes(harm(logs.seed()))
    with pytest.raises(KeptError, match=re.escape(told)):
        SwingLog(path)


def test_a_name_that_no_log_can_hold_is_told(run: Run, tmp_path: Path) -> None:
    keep(Place(tmp_path), swing_record())
    for words in (
        ("log", "delete-student", UNDECODABLE),
        ("log", "sessions", "--student", UNDECODABLE),
    ):
        said = run(*words, "--keep", tmp_path)
        assert said.exit_code == 6
        assert "'bird\\udcff' is no text that a log can hold" in said.line


def test_a_name_like_a_style_is_shown_as_it_is(run: Run, tmp_path: Path) -> None:
    keep(Place(tmp_path), swing_record(student="[/red]"), session_facts("[/red]"))
    said = run("log", "sessions", "--keep", tmp_path)
    assert said.exit_code == 0
    assert "[/red]" in said.out


@pytest.mark.parametrize("named", ["../outside.mov", "/etc/passwd", "students/../log.sqlite"])
def test_no_film_outside_is_deleted(named: str, tmp_path: Path) -> None:
    place = Place(tmp_path / "kept")
    outside = tmp_path / "outside.mov"
    outside.write_bytes(b"not ours")
    keep(place, with_film(swing_record()))
    with SwingLog(place.log) as log:
        log.rows("UPDATE swings SET film = ?", named)
        with pytest.raises(KeptError):
            delete_films(log, place, films(log))
    assert outside.exists()
    assert place.log.exists()


def test_no_film_is_deleted_through_a_link(tmp_path: Path) -> None:
    place, elsewhere = Place(tmp_path / "kept"), tmp_path / "elsewhere"
    film = keep(place, with_film(swing_record())).parent / "swing_001.mov"
    film.write_bytes(b"a film")
    place.student("Heron").rename(elsewhere)
    place.student("Heron").symlink_to(elsewhere, target_is_directory=True)
    with SwingLog(place.log) as log, pytest.raises(KeptError, match="no film of ours"):
        delete_films(log, place, films(log))
    assert len(list(elsewhere.rglob("*.mov"))) == 1


def test_nothing_is_kept_through_a_link(tmp_path: Path) -> None:
    place, elsewhere = Place(tmp_path / "kept"), tmp_path / "elsewhere"
    elsewhere.mkdir()
    place.students.mkdir(parents=True)
    place.student("Heron").symlink_to(elsewhere, target_is_directory=True)
    with pytest.raises(OutputError, match="is a link to another place"):
        KeptSession(place, "Heron", "a camera")
    assert list(elsewhere.iterdir()) == []


def test_a_source_that_is_no_text_costs_no_swing(tmp_path: Path) -> None:
    place = Place(tmp_path)
    session = KeptSession(place, "Heron", UNDECODABLE)
    session.keep(session.stamped(swing_record()))
    session.close()
    assert session.log_trouble == ""
    assert read_facts(session.folder, place).source == "bird\ufffd"


@pytest.mark.parametrize(
    "alias", ["", " ", "a: b", "# a", '"', "a\nb", "..", "../x", "[a]", UNDECODABLE, "x" * 61, "-a"]
)
def test_a_pseudonym_that_no_plan_can_hold_is_refused(alias: str, tmp_path: Path) -> None:
    with pytest.raises(BaycueError, match="cannot be a pseudonym"):
        Keeping(KeepRequest(tmp_path, alias=alias), ["Heron"], lambda line: None)
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("alias", ["Bird 7", "鷺", "He\u0301ron", "a_b-c.d", "007", "null"])
def test_a_plain_pseudonym_is_taken(alias: str) -> None:
    refuse_unkeepable(alias)
