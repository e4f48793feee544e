"""Files that are no plans: one clear answer in bounded work, whatever is in them."""

import os
import re
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from baycue.errors import PlanError
from baycue.plan.file import LARGEST_FILE_BYTES
from baycue.plan.load import load_plan, parse_plan

GOOD = (
    "student: Heron\nhandedness: right\nstature: 178 cm\nview: face-on\ntargets:\n"
    "  - measure: knee past ankle\n    at: P6\n    at_least: 5 cm\n"
)
LONGEST_LINE, MOST_LINES = 1500, 21


def refused(text: str) -> list[str]:
    """The lines of the refusal; none for a plan that is right."""
    try:
        parse_plan(text, "plan.yaml")
    except PlanError as error:
        return str(error).splitlines()
    return []


def test_the_good_one_is_right() -> None:
    assert refused(GOOD) == []


def only_line(content: bytes, folder: Path) -> str:
    path = folder / "plan.yaml"
    path.write_bytes(content)
    with pytest.raises(PlanError) as caught:
        load_plan(path)
    (line,) = str(caught.value).splitlines()
    assert path.read_bytes() == content
    return line.removeprefix(f"{path}:")


@pytest.mark.parametrize(
    ("content", "told"),
    [
        (b"", "1: is empty"),
        (b"# only a comment\n\n", "1: is empty"),
        (GOOD.encode("utf-16"), "1: is saved as UTF-16; save the file as UTF-8"),
        (GOOD.encode("utf-16-le"), "1: has a forbidden character: U+0000"),
        (GOOD.replace("Heron", "Hérôn").encode("latin-1"), "1: byte 0xe9 is not UTF-8"),
        (GOOD.replace("Heron", "He\x00ron").encode(), "1: has a forbidden character: U+0000"),
        (GOOD.replace("Heron", '"\\e[31m"').encode(), "1: has a forbidden character: U+001B"),
        (GOOD.replace("    at:", "\tat:").encode(), "7: not valid YAML: a tab stands where"),
        (GOOD.replace("Heron", "x" * 2000).encode(), "1: has 2000 characters in one place"),
        (GOOD.replace("Heron", "&me Heron").encode(), '1: "me": anchors and aliases'),
    ],
)
def test_what_no_editor_should_have_saved_is_told_in_one_line(
    content: bytes, told: str, tmp_path: Path
) -> None:
    assert only_line(content, tmp_path).startswith(told)


def test_a_byte_order_mark_and_windows_lines_are_no_fault(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes(GOOD.replace("\n", "\r\n").encode("utf-8-sig"))
    assert load_plan(path).student == "Heron"


def test_a_pipe_is_refused_and_not_waited_for(tmp_path: Path) -> None:
    pipe = tmp_path / "plan.yaml"
    os.mkfifo(pipe)
    with pytest.raises(PlanError, match="is no plain file"):
        load_plan(pipe)


@pytest.mark.parametrize("name", ["a" * 300 + ".yaml", "loop.yaml", "loop.yaml/plan.yaml"])
def test_a_name_that_leads_nowhere_is_told(name: str, tmp_path: Path) -> None:
    (tmp_path / "loop.yaml").symlink_to(tmp_path / "loop.yaml")
    with pytest.raises(PlanError, match="cannot be read: "):
        load_plan(tmp_path / name)


@pytest.mark.skipif(os.geteuid() == 0, reason="root may read every file")
def test_a_file_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_text(GOOD)
    path.chmod(0)
    with pytest.raises(PlanError, match="cannot be read: Permission denied"):
        load_plan(path)


@pytest.mark.parametrize(
    "part",
    ["- a\n", "a,", "'", "? ", ": ", "- ", "{", "[", "!", "&", "*", "---\n", "- &a b\n", "#"],
)
def test_a_full_file_of_one_thing_is_refused_in_few_short_lines(part: str) -> None:
    lines = refused(part * (LARGEST_FILE_BYTES // len(part)))
    assert 1 <= len(lines) <= MOST_LINES
    assert max(map(len, lines)) <= LONGEST_LINE


def test_hundreds_of_unknown_keys_are_told_briefly() -> None:
    lines = refused(GOOD + "".join(f"key{k}: 1\n" for k in range(600)))
    assert len(lines) == MOST_LINES
    assert lines[-1] == "plan.yaml: and 580 more"


PIECES = st.sampled_from(
    [
        *GOOD.splitlines(keepends=True),
        *("  ", "\t", "- ", ": ", "&a ", "*a", "!!int ", "{", "}", "[", "]", ",", "|\n", ">\n"),
        *("'", '"', "#", "---\n", "...\n", "<<: ", "? ", "%YAML 1.1\n", "\ufeff", "\x85", "\u2028"),
        *("between: [", "at_most: 4 cm\n", "nan", "-0", "1e309", "9" * 400, "\\x00", "null", "~"),
    ]
)


@settings(max_examples=300, deadline=None)
@given(st.lists(PIECES, max_size=40).map("".join))
def test_any_shuffle_of_a_plan_is_right_or_refused_line_by_line(text: str) -> None:
    lines = refused(text)
    assert len(lines) <= MOST_LINES
    for line in lines:
        assert re.match(r"plan\.yaml(:\d+)?: ", line)
        assert len(line) <= LONGEST_LINE


@settings(max_examples=300, deadline=None)
@given(st.integers(0, len(GOOD)), st.integers(0, 12), st.text(max_size=6))
def test_any_slip_of_the_keyboard_is_right_or_refused_line_by_line(
    at: int, lost: int, typed: str
) -> None:
    for line in refused(GOOD[:at] + typed + GOOD[at + lost :]):
        assert re.match(r"plan\.yaml(:\d+)?: ", line)


@settings(
    max_examples=200,
    deadline=None,
    suppress_health_check=[HealthCheck.function_scoped_fixture],
)
@given(content=st.binary(max_size=200))
def test_any_bytes_are_refused_and_left_as_they_were(content: bytes, tmp_path: Path) -> None:
    path = tmp_path / "plan.yaml"
    path.write_bytes(content)
    with pytest.raises(PlanError):
        load_plan(path)
    assert path.read_bytes() == content
