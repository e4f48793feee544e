"""What the summary counts."""

import pytest

from baycue.folder.summary import tally


def test_a_rate_is_of_the_answers_that_were_called() -> None:
    """7 of 10: 0.3968 to 0.8922, Newcombe 1998, Statistics in Medicine 17:857, table I."""
    answers = ["pass"] * 7 + ["fail"] * 3 + ["too close to call"] * 4 + ["not measured"] * 2
    counted = tally(answers)
    assert (counted.passed, counted.failed) == (7, 3)
    assert (counted.too_close, counted.not_measured) == (4, 2)
    assert counted.pass_rate == pytest.approx(0.7)
    assert counted.low == pytest.approx(0.3968, abs=5e-5)
    assert counted.high == pytest.approx(0.8922, abs=5e-5)


def test_without_a_called_answer_there_is_no_rate() -> None:
    counted = tally(["too close to call", "not measured"])
    assert counted.pass_rate is counted.low is counted.high is None
