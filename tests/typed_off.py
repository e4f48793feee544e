"""A recipe of DEVELOPERS.md, read out of it and typed off into a copy of the tree."""

import os
import re
import shutil
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from tests.command_line import PROJECT

_FILE = re.compile(r"^`([^`]+)`:\n\n```\w+\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_LINES = re.compile(r"^```sh\n(.*?)^```$", re.MULTILINE | re.DOTALL)


@dataclass(frozen=True)
class Recipe:
    """Files to write, each by its place and text, and lines to type after them."""

    files: dict[str, str]
    lines: tuple[str, ...]


def recipe(title: str) -> Recipe:
    """The section ``### Recipe: title``."""
    text = (PROJECT / "DEVELOPERS.md").read_text(encoding="utf-8")
    _, found, rest = text.partition(f"### Recipe: {title}\n")
    assert found, f"DEVELOPERS.md has no recipe for {title}"
    section = re.split(r"^##", rest, maxsplit=1, flags=re.MULTILINE)[0]
    lines = [line for block in _LINES.findall(section) for line in block.splitlines()]
    return Recipe(dict(_FILE.findall(section)), tuple(lines))


def copied_tree(folder: Path) -> Path:
    """What a contributor has checked out, but for what only CI needs."""
    for name in ("baycue", "tests"):
        shutil.copytree(PROJECT / name, folder / name, ignore=shutil.ignore_patterns("footage"))
    for name in ("configs", "sample_recordings"):
        (folder / name).symlink_to(PROJECT / name)
    for name in ("pyproject.toml", "README.md", "DEVELOPERS.md"):
        shutil.copy2(PROJECT / name, folder)
    return folder


def write_files(written: Recipe, tree: Path) -> None:
    """Each is new: a recipe changes nothing that is there."""
    for place, text in written.files.items():
        with (tree / place).open("x", encoding="utf-8") as file:
            file.write(text)


def typed(line: str, tree: Path) -> str:
    """What a line says; the test fails, showing it, if the line fails."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    done = subprocess.run(
        ["bash", "-c", line],
        cwd=tree,
        env=os.environ | {"PATH": path, "PYTHONPATH": str(tree), "COLUMNS": "200"},
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        timeout=600,
        check=False,
    )
    assert done.returncode == 0, f"$ {line}\n{done.stdout}"
    return done.stdout
