"""The list of what ships says what is there, in the form that the standard asks for."""

import json
import sys
from email.message import Message
from importlib.metadata import PackageMetadata
from pathlib import Path
from typing import cast

import pytest
from cyclonedx.schema import SchemaVersion
from cyclonedx.validation.json import JsonStrictValidator

from baycue.licences.bill import bill_here
from baycue.licences.by_hand import by_hand
from baycue.licences.component import Component
from baycue.licences.said import licence_said
from baycue.licences.shipped import components_of, shipped_bill, shipped_components
from tests.command_line import PROJECT, Run

STALE = "the list is stale; run: python -m baycue.licences.make_list"


def _licences(components: tuple[Component, ...]) -> dict[str, tuple[str, object]]:
    return {
        c.name: (c.licence, [(part.name, part.licence) for part in c.inside]) for c in components
    }


@pytest.mark.skipif(sys.platform != "linux", reason="other systems need other packages")
def test_the_list_names_what_is_installed_and_its_licences() -> None:
    assert _licences(shipped_components()) == _licences(components_of(bill_here())), STALE


def test_the_list_is_valid_by_cyclonedx_own_schema() -> None:
    """ECMA-424's JSON schema, by the reference library of CycloneDX."""
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(shipped_bill()) is None


def test_the_schema_would_refuse_a_wrong_one() -> None:
    wrong = json.loads(shipped_bill()) | {"components": [{"name": "no type"}]}
    assert JsonStrictValidator(SchemaVersion.V1_6).validate_str(json.dumps(wrong)) is not None


def test_every_file_of_ours_that_is_no_code_has_one_entry() -> None:
    home = PROJECT / "baycue"
    listed = [path for entry in by_hand().files for path in home.rglob(entry.path)]
    there = [
        path for path in home.rglob("*") if path.is_file() and path.suffix not in (".py", ".pyc")
    ]
    wanted = sorted(path for path in there)
    assert sorted(path for path in listed if path in set(there)) == wanted


def test_nothing_is_said_of_a_package_that_is_not_needed() -> None:
    packages = {c.name for c in shipped_components() if c.kind == "library"}
    assert {*by_hand().inside, *by_hand().remarks} <= packages


def test_what_asks_for_more_than_our_licence_has_a_word_on_it() -> None:
    asking = [c for c in shipped_components() if c.asks_for_more]
    assert {"av", "certifi", "opencv-contrib-python", "pillow", "pygame-ce"} == {
        c.name for c in asking
    }
    assert all(c.remark or c.inside for c in asking)


@pytest.mark.parametrize(
    ("licence", "asks"),
    [
        ("MIT", False),
        ("BSD-3-Clause AND 0BSD AND MIT AND Zlib AND CC0-1.0", False),
        ("(Apache-2.0 OR BSD-2-Clause) AND MIT", False),
        ("MIT AND LGPL-2.1-or-later", True),
        ("GPL-2.0-or-later", True),
        ("not said", True),
    ],
)
def test_which_licences_ask_for_more(licence: str, asks: bool) -> None:
    assert Component("thing", licence).asks_for_more is asks
    assert Component("outer", "MIT", inside=(Component("thing", licence),)).asks_for_more is asks


MIT = "License :: OSI Approved :: MIT License"


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ((("License-Expression", "BSD-3-Clause"), ("License", "BSD")), "BSD-3-Clause"),
        ((("License", "Apache 2.0"),), "Apache-2.0"),
        ((("License", "The MIT License\n\nPermission is ..."), ("Classifier", MIT)), "MIT"),
        ((("Classifier", "Topic :: Games"), ("Classifier", MIT)), "MIT"),
        ((("License", "LGPL v2.1"),), "LGPL v2.1"),
        ((("Name", "thing"),), "not said"),
    ],
)
def test_a_package_s_word_in_each_of_its_three_forms(
    lines: tuple[tuple[str, str], ...], told: str
) -> None:
    metadata = Message()
    for key, value in lines:
        metadata[key] = value
    assert licence_said(cast(PackageMetadata, metadata)) == told


def test_the_command_says_plainly_what_does_not_go_with_our_licence(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "160")
    said = Run(capsys)("licences")
    assert said.exit_code == 0
    for word in ("(!) x264", "GPL-2.0-or-later", "FreeSansBold", "pose model", "must keep to"):
        assert word in said.out


def test_the_command_prints_the_document(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    said = Run(capsys)("licences", "--json")
    assert components_of(json.loads(said.out)) == shipped_components()
