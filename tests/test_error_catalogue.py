"""Every error has its entry, every entry its error: the code is walked."""

import ast
from collections.abc import Iterator
from functools import cache
from pathlib import Path

import pytest

import baycue
from baycue import errors
from baycue.error_catalogue import ENTRIES, NOTICES, entry_of
from baycue.errors import BaycueError
from tests.command_line import Run

HOME = Path(baycue.__file__).parent
OURS = {
    name: kind
    for name, kind in vars(errors).items()
    if isinstance(kind, type) and issubclass(kind, BaycueError)
}
OF_PYTHON = {
    *("ValueError", "TypeError", "KeyError", "EOFError", "AssertionError", "FileExistsError"),
    *("OSError", "StopIteration", "TimeoutError", "RuntimeError", "Exit", "KeyboardInterrupt"),
}
"""What is caught again before anybody sees it, as the rules of each room's edge say."""
WITHIN = {"EndedBadlyError", "NotMeasuredError", "OvertakenError"}
"""Ours too, but told as part of an answer or not at all."""


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str]) -> Run:
    return Run(capsys)


@cache
def trees() -> dict[Path, ast.Module]:
    return {f: ast.parse(f.read_text(encoding="utf-8")) for f in HOME.rglob("*.py")}


def nodes() -> Iterator[ast.AST]:
    for file, tree in trees().items():
        if file.name not in ("errors.py", "error_catalogue.py") or file.parent != HOME:
            yield from ast.walk(tree)


def name_of(node: ast.expr) -> str:
    return node.id if isinstance(node, ast.Name) else getattr(node, "attr", "")


def made() -> set[str]:
    """The names of all that is called, classes of errors among them."""
    return {name_of(n.func) for n in nodes() if isinstance(n, ast.Call)}


def test_every_kind_has_one_entry_and_a_code_of_its_own() -> None:
    assert {entry.kind for entry in ENTRIES} == set(OURS.values())
    codes = [entry.code for entry in (*ENTRIES, *NOTICES)]
    assert len(set(codes)) == len(codes)
    assert all("code" in vars(kind) for kind in OURS.values())


def test_no_entry_is_dead() -> None:
    assert set(OURS) - made() == set()


def test_nothing_is_raised_that_has_no_entry() -> None:
    raised = {
        name_of(n.exc.func if isinstance(n.exc, ast.Call) else n.exc)
        for n in nodes()
        if isinstance(n, ast.Raise) and n.exc is not None
    }
    classes = {name for name in raised if name[:1].isupper()}
    assert classes - set(OURS) - OF_PYTHON - WITHIN == set()


def test_no_error_of_ours_is_defined_elsewhere() -> None:
    elsewhere = {
        n.name
        for n in nodes()
        if isinstance(n, ast.ClassDef) and {name_of(b) for b in n.bases} & set(OURS)
    }
    assert elsewhere == set()


def test_every_notice_is_said() -> None:
    said = [n.value for n in nodes() if isinstance(n, ast.Constant) and isinstance(n.value, str)]
    for notice in NOTICES:
        assert any(notice.said in text for text in said), notice


def test_every_entry_says_what_it_means_and_what_to_do() -> None:
    for entry in (*ENTRIES, *NOTICES):
        assert entry.meaning.endswith(".")
        assert entry.remedy.endswith((".", "`."))
        assert entry_of(f"[{entry.code.lower()}]") is entry


def test_the_terminal_lists_and_explains_them(run: Run) -> None:
    said = run("errors")
    assert all(entry.code in said.out.split() for entry in (*ENTRIES, *NOTICES))
    said = run("errors", "r3")
    assert said.out.startswith("R3 (exit code 3)\nThe recording is empty, damaged or cut off")
    assert "What to do: Copy it again" in said.out


def test_an_unknown_code_gets_the_nearest(run: Run) -> None:
    said = run("errors", "R33")
    assert said.exit_code == 2
    assert said.line.endswith('`baycue errors` lists them; did you mean "R3"? [U1]')


def test_an_error_s_line_ends_with_its_code(run: Run) -> None:
    assert run("score", "nowhere.mp4", "--plan", "nowhere.yaml").line.endswith("[P2]")
