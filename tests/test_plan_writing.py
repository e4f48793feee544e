"""Plan data written as YAML is read back the same, and looks as a coach would write it."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.plan.document import Data, read_document
from baycue.plan.writing import as_yaml
from tests.command_line import PLANS

WORDS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1).filter(
    lambda word: len(word) <= 60
)
DATA = st.recursive(
    WORDS,
    lambda inner: st.one_of(
        st.lists(inner, min_size=1, max_size=3), st.dictionaries(WORDS, inner, min_size=1)
    ),
    max_leaves=8,
)


@given(st.dictionaries(WORDS, DATA, min_size=1, max_size=4))
def test_what_is_written_is_read_back(data: dict[str, Data]) -> None:
    document = read_document(as_yaml(data))
    assert document.faults == []
    assert document.data == data


def test_numbers_and_answers_need_no_quotes() -> None:
    row: dict[str, Data] = {"between": ["2.5", "-3.5 cm"], "watch_only": "true", "band": "1.0"}
    assert as_yaml({"targets": [row]}) == (
        "targets:\n  - between: [2.5, -3.5 cm]\n    watch_only: true\n    band: 1.0\n"
    )


@pytest.mark.parametrize("path", sorted(PLANS.glob("*.yaml")), ids=lambda p: p.stem)
def test_the_example_plans_come_back(path: Path) -> None:
    document = read_document(path.read_text(encoding="utf-8"))
    assert isinstance(document.data, dict)
    again = read_document(as_yaml(document.data)).data
    assert isinstance(again, dict)
    assert again.keys() == document.data.keys()
    assert again["targets"] == document.data["targets"]
