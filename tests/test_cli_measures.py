"""``baycue measures``: every measure in the list, and all about one."""

import io

import pytest
from rich.console import Console

from baycue.commands.measures import run_measures
from baycue.errors import BaycueError
from baycue.measures.catalogue import measures
from baycue.measures.measure import Measure


def printed(name: str | None) -> str:
    text = io.StringIO()
    run_measures(name, Console(file=text, width=200))
    return text.getvalue()


def test_the_list_names_every_measure_and_its_sign() -> None:
    text = printed(None)
    assert all(m.name in text and m.positive in text for m in measures())


@pytest.mark.parametrize("measure", measures(), ids=lambda m: m.name)
def test_one_measure_is_told_with_definition_unit_view_and_doubt(measure: Measure) -> None:
    text = " ".join(printed(measure.name).split())
    for words in (measure.definition, measure.positive, *(v.value for v in measure.views)):
        assert words in text
    assert ("not to be trusted" in text) == bool(measure.doubt)


def test_case_and_spaces_do_not_matter() -> None:
    assert printed("Wrist  Angle") == printed("wrist angle")


def test_another_name_is_refused_with_the_nearest() -> None:
    with pytest.raises(BaycueError, match='did you mean "wrist angle"'):
        run_measures("wrist angel", Console())
