"""What the coach's report counts, and what it says of the counts."""

import numpy as np
import pytest

from baycue.coach_report.figures import fewest_for_a_chart, figures_of
from baycue.coach_report.record import (
    PracticeAnswer,
    PracticeRecord,
    PracticeSession,
    PracticeSwing,
)
from baycue.coach_report.words import drift_words, rate_words, retention_words
from baycue.counted import counted
from baycue.plan.target import Target
from tests.invented_answers import CLOSE, FAIL, KNEE, PASS, knee, session
from tests.kept_practice import FIRST_DAY


def test_a_rate_is_of_the_called_swings_with_its_published_interval() -> None:
    """Newcombe 1998, Statistics in Medicine 17:857, table I: 7 of 10 is .3968 to .8922."""
    figures = knee(session(*[PASS] * 7, *[FAIL] * 3, CLOSE))
    assert rate_words(figures.practice) == "7 of 10, 70 % (40 to 89 %)"
    assert (figures.practice.low, figures.practice.high) == pytest.approx(
        (0.3968, 0.8922), abs=5e-5
    )
    assert figures.practice.too_close == 1


def test_best_has_the_widest_margin_and_the_typical_fail_the_middle_one() -> None:
    figures = knee(session(PASS, FAIL, FAIL, PASS, FAIL))
    assert figures.best is not None
    assert figures.typical_fail is not None
    assert figures.best.swing.number == 4
    assert figures.typical_fail.swing.number == 3
    assert knee(session(CLOSE)).best is None


def test_a_bound_that_was_changed_counts_as_another_target() -> None:
    harder = Target.model_validate({"measure": "knee past ankle", "at": "P6", "at_least": "6 cm"})
    later = PracticeSwing(1, FAIL, (PracticeAnswer(harder, FAIL, 0.055, -0.005),))
    record = PracticeRecord(
        "Heron", (session(PASS), PracticeSession(FIRST_DAY, "a recording", (later,)))
    )
    assert [f.target for f in figures_of(record)] == [KNEE, harder]
    assert [f.practice.passed for f in figures_of(record)] == [1, 0]


def test_probes_are_told_apart_from_practice() -> None:
    figures = knee(session(FAIL, FAIL, FAIL, PASS), session(PASS, PASS, probe=True))
    assert (figures.practice.passed, figures.practice.failed) == (1, 3)
    assert (figures.probes.passed, figures.probes.failed) == (2, 0)
    assert "Probes: 2 of 2" in retention_words(figures)
    assert len(figures.sessions) == 1
    assert "not known" in retention_words(knee(session(PASS)))


def test_each_session_is_halved_in_order() -> None:
    (told,) = knee(session(FAIL, FAIL, CLOSE, PASS, PASS)).sessions
    assert [(half.passed, half.failed, half.too_close) for half in told.halves] == [
        (0, 2, 1),
        (2, 0, 0),
    ]


@pytest.mark.parametrize(("rate", "fewest"), [(0.3, 22), (0.7, 22), (0.5, 10), (0.9, 82)])
def test_blocks_that_may_be_read_for_drift_are_large(rate: float, fewest: int) -> None:
    """Montgomery, Introduction to Statistical Quality Control, from memory: n > 9 (1 - p) / p."""
    assert fewest_for_a_chart(rate) == fewest
    spread = 3 * np.sqrt(rate * (1 - rate) / fewest)
    assert spread < min(rate, 1 - rate)
    wider = 3 * np.sqrt(rate * (1 - rate) / (fewest - 1))
    assert wider >= min(rate, 1 - rate) - 1e-9


def test_drift_in_blocks_of_ten_is_not_read() -> None:
    assert "Too few swings" in drift_words(knee(session(*[FAIL] * 7, *[PASS] * 6, *[FAIL] * 7)))
    assert "Too few" not in drift_words(knee(session(*[PASS, FAIL] * 30)))
    assert "Nothing can be said" in drift_words(knee(session(FAIL)))


def test_one_is_told_as_one() -> None:
    assert [counted(n, "swing") for n in (0, 1, 2)] == ["0 swings", "1 swing", "2 swings"]
    assert [counted(n, "file is", "files are") for n in (1, 2)] == ["1 file is", "2 files are"]
