"""The JSON that ``--json`` writes, and its schema."""

import json
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from baycue.errors import OutputError
from baycue.report.document import ScoreDocument, entries, schema, write_document
from tests.scored_swing import DECIDED_AFTER_IMPACT_S, scored_swing


def document() -> ScoreDocument:
    return ScoreDocument(
        recording="swing.mp4",
        plan="heron.yaml",
        student="Heron",
        frames=60,
        dropped_frames=0,
        fps=30.0,
        swings=entries([scored_swing()]),
    )


def test_what_is_written_reads_back_the_same(tmp_path: Path) -> None:
    path = tmp_path / "swing.json"
    write_document(document(), path)
    assert ScoreDocument.model_validate_json(path.read_text(encoding="utf-8")) == document()


def test_what_is_written_fits_the_published_schema() -> None:
    checker = jsonschema.Draft202012Validator(schema())
    checker.check_schema(schema())
    written = json.loads(document().model_dump_json())
    checker.validate(written)
    del written["swings"][0]["targets"][0]["unit"]
    assert not checker.is_valid(written)


def test_the_schema_says_what_every_field_is() -> None:
    described = dict(fields_of(schema()))
    assert "swings" in described
    assert all(described.values()), [name for name, text in described.items() if not text]


def fields_of(whole: dict[str, Any]) -> Iterator[tuple[str, str | None]]:
    for part in (whole, *whole["$defs"].values()):
        for name, field in part["properties"].items():
            yield name, field.get("description")


def test_figures_are_those_of_the_swing() -> None:
    (swing,) = document().swings
    assert swing.outcome == "fail"
    assert swing.decided_after_impact_s == pytest.approx(DECIDED_AFTER_IMPACT_S, abs=1 / 30)
    assert [c.name for c in swing.checkpoints][-1] == "P8"
    knee, _, tempo, missing = swing.targets
    assert (knee.value, knee.sigma, knee.unit) == (0.021, 0.008, "m")
    assert knee.margin == pytest.approx(-0.029)
    assert tempo.watch_only
    assert (missing.measure, missing.value, missing.unit, missing.margin) == (None,) * 4
    assert "the knee was hidden" in missing.reason


def test_a_file_that_exists_is_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "swing.json"
    path.write_text("mine")
    with pytest.raises(OutputError, match=r"swing\.json: exists already"):
        write_document(document(), path)
    assert path.read_text() == "mine"


def test_a_missing_folder_is_told(tmp_path: Path) -> None:
    with pytest.raises(OutputError, match="cannot be written"):
        write_document(document(), tmp_path / "nowhere" / "swing.json")
