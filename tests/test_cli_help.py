"""Every command's help: synopsis, options with defaults, an example that parses, exit codes."""

import re
import shlex
from collections.abc import Iterator
from typing import Any

import pytest
import typer

from baycue.cli import app
from baycue.commands.help_page import PAGES
from tests.command_line import Run


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Run:
    monkeypatch.setenv("COLUMNS", "100")
    return Run(capsys)


def leaves(group: Any, words: tuple[str, ...] = ()) -> Iterator[tuple[str, Any]]:
    """Every command with its words; of whatever Click the Typer that is here brings along."""
    commands = getattr(group, "commands", None)
    if commands is None:
        yield " ".join(words), group
        return
    for name, command in commands.items():
        yield from leaves(command, (*words, name))


COMMANDS = dict(leaves(typer.main.get_command(app)))


def examples(command: Any) -> list[str]:
    return re.findall(r"Example: `baycue ([^`]+)`", command.help or "")


@pytest.mark.parametrize("words", COMMANDS)
def test_every_example_parses(words: str) -> None:
    command = COMMANDS[words]
    shown = examples(command)
    assert shown, f"baycue {words} --help shows no example"
    for example in shown:
        given = shlex.split(example.partition(" > ")[0])
        own = words.split()
        assert given[: len(own)] == own
        command.make_context(words, given[len(own) :])


def test_an_example_that_does_not_parse_would_be_seen() -> None:
    with pytest.raises(Exception, match="No such option"):
        COMMANDS["score"].make_context("score", ["swing.mp4", "--plna", "x"])


@pytest.mark.parametrize("words", COMMANDS)
def test_every_help_ends_with_exit_codes_and_where_else_to_look(words: str, run: Run) -> None:
    said = run(*words.split(), "--help")
    assert said.exit_code == 0
    assert re.search(rf"Usage: .* {words} ", said.out)
    assert "Exit codes: 0 done" in said.out
    assert "See also: baycue " in said.out


@pytest.mark.parametrize("words", COMMANDS)
def test_every_default_is_shown(words: str) -> None:
    for option in COMMANDS[words].params:
        assert getattr(option, "help", ""), option.name
        if option.default not in (None, False) and not callable(option.default):
            assert getattr(option, "show_default", True) is not False, option.name


def test_pages_are_of_commands_and_point_to_commands() -> None:
    assert set(PAGES) <= set(COMMANDS)
    assert {word for page in PAGES.values() for word in page.see} <= set(COMMANDS)
