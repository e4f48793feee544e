"""Earlier sessions' passes, from the log."""

from dataclasses import replace
from pathlib import Path

from baycue.keep.log import SwingLog
from baycue.keep.passes import passed_before
from baycue.keep.place import Place
from baycue.keep.record import PlanText, SwingRecord
from baycue.practice.history import TargetKey
from baycue.spine import ScoredSwing
from baycue.verdict.verdict import Outcome, TargetVerdict
from tests.kept_swing import PLAN, keep, session_facts, swing_record

TITLE, BOUND = "knee past ankle at P6", "at least 5 cm"
KNEE = TargetKey("Heron", TITLE, BOUND)


def answered(
    number: int, outcome: Outcome, value_m: float | None, bound_m: float = 0.05, plan: str = PLAN
) -> SwingRecord:
    """A kept swing whose knee was measured so; None if it was not."""
    record = swing_record(number)
    assert isinstance(record.scored, ScoredSwing)
    knee = next(t for t in record.scored.verdict.targets if t.measurement is not None)
    assert knee.measurement is not None
    measured = None if value_m is None else replace(knee.measurement, value=value_m)
    margin = None if value_m is None else value_m - bound_m
    answer: TargetVerdict = replace(
        knee, target_name=TITLE, outcome=outcome, measurement=measured, margin=margin
    )
    verdict = replace(record.scored.verdict, outcome=outcome, targets=(answer,))
    scored = replace(record.scored, verdict=verdict)
    return replace(record, scored=scored, plan=PlanText("plan", plan))


def outcomes(tmp_path: Path, *records: SwingRecord, key: TargetKey = KNEE) -> tuple[Outcome, ...]:
    place = Place(tmp_path)
    for record in records:
        keep(place, record, session_facts())
    with SwingLog(place.log) as log:
        return passed_before(log, "Heron").outcomes(key)


def test_they_come_in_order_and_what_was_not_measured_is_left_out(tmp_path: Path) -> None:
    found = outcomes(
        tmp_path,
        answered(1, Outcome.FAIL, 0.02),
        answered(2, Outcome.TOO_CLOSE, None),
        answered(3, Outcome.PASS, 0.07),
        answered(4, Outcome.TOO_CLOSE, 0.051),
    )
    assert found == (Outcome.FAIL, Outcome.PASS, Outcome.TOO_CLOSE)


def test_another_bound_has_its_own_history(tmp_path: Path) -> None:
    harder = PLAN.replace("5 cm", "6 cm")
    records = (
        answered(1, Outcome.PASS, 0.07),
        answered(2, Outcome.FAIL, 0.055, 0.06, harder),
    )
    assert outcomes(tmp_path, *records) == (Outcome.PASS,)
    six = replace(KNEE, bound="at least 6 cm")
    with SwingLog(Place(tmp_path).log) as log:
        assert passed_before(log, "Heron").outcomes(six) == (Outcome.FAIL,)


def test_a_drills_own_bound_is_told_from_the_plans_by_the_margin(tmp_path: Path) -> None:
    own = (
        "practice:\n  blocks:\n    - drills:\n        - drill: under a low cane\n"
        "          count: 3\n          targets:\n"
        "            - {measure: knee past ankle, at: P6, at_least: 2 cm}\n"
    )
    records = (
        answered(1, Outcome.PASS, 0.03, 0.02, PLAN + own),
        answered(2, Outcome.FAIL, 0.03, 0.05, PLAN + own),
    )
    assert outcomes(tmp_path, *records) == (Outcome.FAIL,)


def test_a_plan_that_can_no_longer_be_read_is_left_out(tmp_path: Path) -> None:
    assert outcomes(tmp_path, answered(1, Outcome.PASS, 0.07, plan="student: Heron\n")) == ()


def test_who_is_kept_under_another_name_is_found_under_the_plans(tmp_path: Path) -> None:
    keep(Place(tmp_path), answered(1, Outcome.PASS, 0.07), session_facts())
    with SwingLog(Place(tmp_path).log) as log:
        found = passed_before(log, "Teal", alias="Heron")
        assert found.outcomes(replace(KNEE, student="Teal")) == (Outcome.PASS,)
        assert passed_before(log, "Teal").kept == ()


def test_an_answer_whose_value_somebody_took_away_is_left_out(tmp_path: Path) -> None:
    for record in (answered(1, Outcome.PASS, 0.07), answered(2, Outcome.FAIL, 0.02)):
        keep(Place(tmp_path), record, session_facts())
    with SwingLog(Place(tmp_path).log) as log:
        with log.change() as connection:
            connection.execute("UPDATE answers SET value = NULL WHERE outcome = 'pass'")
        assert passed_before(log, "Heron").outcomes(KNEE) == (Outcome.FAIL,)
