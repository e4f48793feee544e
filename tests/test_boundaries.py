"""Nothing that scores can see the truth: no import leads from it to the generator or the bench."""

import ast
from pathlib import Path

import pytest

import baycue

HOME = Path(baycue.__file__).parent
MAY_SEE_THE_TRUTH = ("synthetic", "bench", "commands")
KEPT_APART = ("baycue.synthetic", "baycue.bench")


def imports_of(file: Path) -> set[str]:
    tree = ast.parse(file.read_text(encoding="utf-8"))
    plain = {a.name for n in ast.walk(tree) if isinstance(n, ast.Import) for a in n.names}
    named = {n.module for n in ast.walk(tree) if isinstance(n, ast.ImportFrom) and n.module}
    return plain | named


def scoring_files() -> list[Path]:
    return [f for f in HOME.rglob("*.py") if f.relative_to(HOME).parts[0] not in MAY_SEE_THE_TRUTH]


@pytest.mark.parametrize("file", scoring_files(), ids=lambda f: str(f.relative_to(HOME)))
def test_what_scores_does_not_import_the_generator(file: Path) -> None:
    assert not {name for name in imports_of(file) if name.startswith(KEPT_APART)}


def test_the_check_would_see_such_an_import() -> None:
    assert any(name.startswith(KEPT_APART) for name in imports_of(HOME / "bench" / "staging.py"))
    assert len(scoring_files()) > 100
