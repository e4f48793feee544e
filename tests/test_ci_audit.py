"""What CI says of known vulnerabilities, and of a service that knows of none."""

from importlib.machinery import SourceFileLoader
from importlib.util import module_from_spec, spec_from_loader
from types import ModuleType
from typing import Any

import pytest

from tests.command_line import PROJECT


@pytest.fixture(scope="module")
def audit() -> ModuleType:
    loader = SourceFileLoader("ci_audit", str(PROJECT / ".ci" / "audit"))
    spec = spec_from_loader(loader.name, loader)
    assert spec is not None
    module = module_from_spec(spec)
    loader.exec_module(module)
    return module


def package(name: str, *found: str) -> dict[str, Any]:
    vulns = [{"id": each, "fix_versions": ["2.0"], "aliases": [f"CVE-{each}"]} for each in found]
    return {"name": name, "version": "1.0", "vulns": vulns}


CONTROL = [package("jinja2", "PYSEC-1")]
SKIPPED = {"name": "heron", "skip_reason": "Dependency not found on PyPI"}


def test_none_known_is_fit_and_says_how_many_were_asked_about(audit: ModuleType) -> None:
    code, lines = audit.verdict(CONTROL, [package("numpy"), package("scipy"), SKIPPED])
    assert code == 0
    assert lines == ["2 of 3 packages audited, 0 known and not accepted"]


def test_one_that_is_known_fails_and_is_named(audit: ModuleType) -> None:
    code, lines = audit.verdict(CONTROL, [package("numpy", "PYSEC-7")])
    assert code == 1
    assert lines[1] == "numpy 1.0: PYSEC-7, mended in 2.0"


@pytest.mark.parametrize("name", ["PYSEC-7", "CVE-PYSEC-7"])
def test_one_that_is_accepted_by_any_of_its_names_does_not(
    audit: ModuleType, monkeypatch: pytest.MonkeyPatch, name: str
) -> None:
    monkeypatch.setitem(audit.ACCEPTED, name, "only read by a command that is not called")
    assert audit.verdict(CONTROL, [package("numpy", "PYSEC-7")])[0] == 0


@pytest.mark.parametrize(
    ("control", "packages"),
    [
        ([], []),
        ([package("jinja2")], [package("numpy")]),
        ([SKIPPED], [SKIPPED]),
        (CONTROL, [SKIPPED]),
    ],
    ids=["no answer", "knows nothing", "a mirror without it", "only of the control"],
)
def test_a_service_that_cannot_tell_is_said_to_and_breaks_nothing(
    audit: ModuleType, control: list[dict[str, Any]], packages: list[dict[str, Any]]
) -> None:
    code, (line,) = audit.verdict(control, packages)
    assert code == 0
    assert line.startswith("nothing was audited")


def page(version: str, *found: str) -> dict[str, Any]:
    """As PyPI tells of a package's newest release."""
    vulns = [
        {"id": each, "fixed_in": [], "aliases": [f"CVE-{each}"], "withdrawn": None}
        for each in found
    ]
    return {"info": {"version": version}, "vulnerabilities": vulns}


def test_the_page_of_a_package_tells_of_the_newest_release(audit: ModuleType) -> None:
    told = audit.told_of("numpy", "1.0", page("1.0", "PYSEC-7"))
    code, lines = audit.verdict(CONTROL, [told])
    assert (code, lines[1]) == (1, "numpy 1.0: PYSEC-7, mended in no release yet")


def test_what_is_older_than_the_newest_is_not_audited(audit: ModuleType) -> None:
    told = audit.told_of("numpy", "1.0", page("1.1"))
    assert told["skip_reason"] == "numpy 1.0: the newest is 1.1"
    assert audit.verdict(CONTROL, [told])[1][0].startswith("nothing was audited")


def test_a_vulnerability_that_was_withdrawn_is_none(audit: ModuleType) -> None:
    withdrawn = page("1.0", "PYSEC-7")
    withdrawn["vulnerabilities"][0]["withdrawn"] = "2026-01-01T00:00:00Z"
    assert audit.told_of("numpy", "1.0", withdrawn)["vulns"] == []
