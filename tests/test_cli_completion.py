"""Completion asked for by real shells."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

PROGRAM = "from baycue.cli import main\nmain()\n"
ASK = """
set -e
eval "$(baycue --show-completion)"
complete -p baycue
COMP_WORDS=({words}) COMP_CWORD={last}
_baycue_completion baycue
printf 'offered %s\\n' "${{COMPREPLY[@]}}"
"""


@pytest.fixture
def home(tmp_path: Path) -> dict[str, str]:
    """The surroundings of a shell that finds this very program."""
    program = tmp_path / "bin" / "baycue"
    program.parent.mkdir()
    program.write_text(f"#!{sys.executable}\n{PROGRAM}")
    program.chmod(0o755)
    source = str(Path(__file__).parent.parent)
    return {"PATH": f"{program.parent}:/usr/bin:/bin", "PYTHONPATH": source, "HOME": str(tmp_path)}


def out_of(words: list[str], home: dict[str, str]) -> str:
    return subprocess.run(
        words, env=home, capture_output=True, text=True, check=True, timeout=120
    ).stdout


@pytest.mark.skipif(shutil.which("bash") is None, reason="there is no bash here")
@pytest.mark.parametrize(
    ("typed", "offered"),
    [
        ("sc", {"score", "score-folder", "scale-board", "schema"}),
        ("log re", {"rescore", "retention"}),
        ("score --pl", {"--plan"}),
    ],
)
def test_bash_offers_what_can_be_typed(typed: str, offered: set[str], home: dict[str, str]) -> None:
    words = ["baycue", *typed.split()]
    script = ASK.format(words=" ".join(words), last=len(words) - 1)
    said = out_of(["bash", "--norc", "-c", script], home).splitlines()
    assert "_baycue_completion" in said[0]
    found = {line.removeprefix("offered ").strip() for line in said[1:]}
    assert found == offered


@pytest.mark.parametrize("shell", ["bash", "zsh", "fish", "powershell"])
def test_every_shell_gets_its_script(shell: str, home: dict[str, str]) -> None:
    script = out_of(["baycue"], home | {"_BAYCUE_COMPLETE": f"source_{shell}"})
    assert "baycue" in script
    assert "_BAYCUE_COMPLETE" in script
