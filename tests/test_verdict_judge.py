"""Judging: the side of the bound, the band around it, and the words for it."""

import math
import re
from dataclasses import replace

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from baycue.measures.measurement import Measurement, Unit
from baycue.plan.target import USUAL_BAND, Target
from baycue.verdict.judge import judge_swing, judge_target
from baycue.verdict.verdict import Outcome, TargetVerdict


def target(**keys: object) -> Target:
    return Target.model_validate({"measure": "knee past ankle", "at": "P6", **keys})


def tempo(**keys: object) -> Target:
    return Target.model_validate({"measure": "tempo", **keys})


def knee(value_m: float, sigma_m: float = 0.009) -> Measurement:
    return Measurement("knee past ankle", value_m, sigma_m, Unit.METRE)


def ratio(value: float, sigma: float = 0.1) -> Measurement:
    return Measurement("tempo", value, sigma, Unit.RATIO)


AT_LEAST = target(at_least="5 cm")


@pytest.mark.parametrize(
    ("value_m", "outcome", "reason"),
    [
        (0.031, Outcome.FAIL, "3.1 cm, 1.9 cm short of 5.0 cm (give or take 1.2 cm)"),
        (0.064, Outcome.PASS, "6.4 cm, 1.4 cm above 5.0 cm (give or take 1.2 cm)"),
        (
            0.047,
            Outcome.TOO_CLOSE,
            "4.7 cm, 0.3 cm short of 5.0 cm, give or take 1.2 cm: too close to call",
        ),
        (
            0.05001,
            Outcome.TOO_CLOSE,
            "5.0 cm, right on 5.0 cm, give or take 1.2 cm: too close to call",
        ),
    ],
)
def test_the_reason_says_value_margin_bound_and_spread(
    value_m: float, outcome: Outcome, reason: str
) -> None:
    answer = judge_target(AT_LEAST, knee(value_m))
    assert answer.outcome is outcome
    assert answer.reason == f"knee past ankle at P6: {reason}"


def test_a_ceiling_and_a_range_have_their_own_words() -> None:
    ceiling = judge_target(target(at_most="2 in"), knee(0.0254 * 2.5, 0.002))
    assert ceiling.reason == (
        "knee past ankle at P6: 2.5 in, 0.5 in over 2.0 in (give or take 0.1 in)"
    )
    inside = judge_target(tempo(between=["2.5", "3.5"]), ratio(3.2))
    assert inside.reason == "tempo: 3.20, 0.30 under 3.50 (give or take 0.13)"
    assert inside.said is not None
    assert inside.said.bound == "between 2.50 and 3.50"


def test_a_sure_answer_never_reads_as_if_it_met_its_bound_exactly() -> None:
    answer = judge_target(AT_LEAST, knee(0.04998, 0.000001))
    assert answer.outcome is Outcome.FAIL
    assert "4.998 cm, 0.002 cm short of 5.000 cm" in answer.reason


def test_the_coachs_own_decimals_are_kept() -> None:
    assert "short of 5.25 cm" in judge_target(target(at_least="5.25 cm"), knee(0.03)).reason


@pytest.mark.parametrize(
    ("keys", "value_m", "margin_m"),
    [
        ({"at_least": "5 cm"}, 0.06, 0.01),
        ({"at_least": "5 cm"}, 0.03, -0.02),
        ({"at_most": "5 cm"}, 0.03, 0.02),
        ({"between": ["2 cm", "5 cm"]}, 0.03, 0.01),
        ({"between": ["2 cm", "5 cm"]}, 0.045, 0.005),
        ({"between": ["2 cm", "5 cm"]}, 0.00, -0.02),
        ({"between": ["2 cm", "5 cm"]}, 0.06, -0.01),
    ],
)
def test_the_margin_is_positive_on_the_passing_side(
    keys: dict[str, object], value_m: float, margin_m: float
) -> None:
    answer = judge_target(target(**keys), knee(value_m, 0.001))
    assert answer.margin == pytest.approx(margin_m)
    assert answer.outcome is (Outcome.PASS if margin_m > 0 else Outcome.FAIL)


def test_a_bound_met_exactly_and_surely_passes() -> None:
    assert judge_target(AT_LEAST, knee(0.05, 0.0)).outcome is Outcome.PASS


def test_what_lies_within_the_usual_band_is_too_close_and_the_coach_may_narrow_it() -> None:
    """1.2 sigmas from the bound, by a usual band of 1.3."""
    measured = knee(0.05 + 1.2 * 0.009, 0.009)
    usual = judge_target(AT_LEAST, measured)
    assert (usual.outcome, usual.band) == (Outcome.TOO_CLOSE, 1.3)
    narrow = judge_target(target(at_least="5 cm", band=1), measured)
    assert (narrow.outcome, narrow.band) == (Outcome.PASS, 1.0)


def test_the_coach_widens_the_band() -> None:
    measured = knee(0.065, 0.009)
    assert judge_target(AT_LEAST, measured).outcome is Outcome.PASS
    wide = judge_target(target(at_least="5 cm", band=2), measured)
    assert wide.outcome is Outcome.TOO_CLOSE
    assert "give or take 1.8 cm" in wide.reason


TOLERANT = target(at_least="5 cm", tolerance="5 mm")


@pytest.mark.parametrize(
    ("value_m", "outcome", "margin_m", "reason"),
    [
        (
            0.047,
            Outcome.PASS,
            0.002,
            "4.7 cm, 0.3 cm short of 5.0 cm, 0.5 cm tolerated (give or take 0.1 cm)",
        ),
        (0.052, Outcome.PASS, 0.007, "5.2 cm, 0.2 cm above 5.0 cm (give or take 0.1 cm)"),
        (
            0.043,
            Outcome.FAIL,
            -0.002,
            "4.3 cm, 0.7 cm short of 5.0 cm, 0.5 cm tolerated (give or take 0.1 cm)",
        ),
        (
            0.0454,
            Outcome.TOO_CLOSE,
            0.0004,
            "4.5 cm, 0.5 cm short of 5.0 cm, 0.5 cm tolerated, give or take 0.1 cm: "
            "too close to call",
        ),
    ],
)
def test_a_bound_missed_by_no_more_than_the_tolerance_passes(
    value_m: float, outcome: Outcome, margin_m: float, reason: str
) -> None:
    answer = judge_target(TOLERANT, knee(value_m, 0.001))
    assert answer.outcome is outcome
    assert answer.margin == pytest.approx(margin_m)
    assert answer.reason == f"knee past ankle at P6: {reason}"
    assert answer.said is not None
    assert answer.said.bound == "at least 5.0 cm (0.5 cm tolerated)"


def test_a_tolerance_moves_both_ends_of_a_range_out() -> None:
    within = target(between=["2 cm", "5 cm"], tolerance="1 cm")
    outcomes = [judge_target(within, knee(v, 0.0)).outcome for v in (0.009, 0.011, 0.059, 0.061)]
    assert outcomes == [Outcome.FAIL, Outcome.PASS, Outcome.PASS, Outcome.FAIL]


def test_no_tolerance_is_as_none_given() -> None:
    none = judge_target(target(at_least="5 cm", tolerance="0 cm"), knee(0.047, 0.001))
    assert replace(none, target_name="") == replace(
        judge_target(AT_LEAST, knee(0.047, 0.001)), target_name=""
    )


def test_what_was_not_measured_is_said_and_neither_passes_nor_fails() -> None:
    answer = judge_target(AT_LEAST, None, "the club was hidden")
    assert answer.outcome is Outcome.TOO_CLOSE
    assert answer.reason == "knee past ankle at P6: not measured: the club was hidden"
    assert (answer.measurement, answer.margin, answer.said) == (None, None, None)


@pytest.mark.parametrize(
    "wrong",
    [
        knee(math.nan),
        knee(math.inf),
        knee(0.05, math.nan),
        knee(0.05, math.inf),
        knee(0.05, -0.001),
        ratio(3.0),
        replace(knee(0.05), unit=Unit.DEGREE),
    ],
)
def test_a_number_that_is_no_measurement_of_the_target_is_refused(wrong: Measurement) -> None:
    with pytest.raises(ValueError, match=r"finite|negative sigma|was asked|is in"):
        judge_target(AT_LEAST, wrong)


millimetres = st.integers(-500, 500)
sigmas_mm = st.integers(0, 40)


@given(value=millimetres, bound=millimetres, sigma=sigmas_mm)
def test_moving_the_threshold_past_the_value_flips_the_answer(
    value: int, bound: int, sigma: int
) -> None:
    assume(abs(value - bound) > USUAL_BAND * sigma)
    measured = knee(value / 1000, sigma / 1000)
    before = judge_target(target(at_least=f"{bound} mm"), measured)
    mirrored = 2 * value - bound
    after = judge_target(target(at_least=f"{mirrored} mm"), measured)
    assert before.margin is not None
    assert after.margin == pytest.approx(-before.margin)
    assert {before.outcome, after.outcome} == {Outcome.PASS, Outcome.FAIL}


@given(value=millimetres, bound=millimetres, sigma=sigmas_mm)
def test_a_floor_and_a_ceiling_at_one_place_never_agree_unless_too_close(
    value: int, bound: int, sigma: int
) -> None:
    assume(value != bound)
    measured = knee(value / 1000, sigma / 1000)
    floor = judge_target(target(at_least=f"{bound} mm"), measured).outcome
    ceiling = judge_target(target(at_most=f"{bound} mm"), measured).outcome
    assert (floor is ceiling) == (floor is Outcome.TOO_CLOSE)


@given(value=millimetres, bound=millimetres, sigma=sigmas_mm)
def test_the_unit_the_coach_writes_changes_no_answer(value: int, bound: int, sigma: int) -> None:
    measured = knee(value / 1000, sigma / 1000)
    written = [f"{bound} mm", f"{bound / 10} cm", f"{bound / 1000} m"]
    answers = [judge_target(target(at_least=text), measured) for text in written]
    assert len({answer.outcome for answer in answers}) == 1
    assert len({answer.margin for answer in answers}) == 1


@given(value=millimetres, bound=millimetres, sigma=sigmas_mm)
def test_the_said_margin_has_the_side_of_the_answer(value: int, bound: int, sigma: int) -> None:
    answer = judge_target(target(at_least=f"{bound} mm"), knee(value / 1000, sigma / 1000))
    side = {Outcome.PASS: "above|right on", Outcome.FAIL: "short", Outcome.TOO_CLOSE: "."}
    assert answer.said is not None
    assert re.search(side[answer.outcome], answer.said.margin)


def answers(*outcomes: str) -> list[TargetVerdict]:
    known = {
        "pass": judge_target(AT_LEAST, knee(0.08)),
        "fail": judge_target(AT_LEAST, knee(0.01)),
        "close": judge_target(AT_LEAST, knee(0.05)),
        "hidden": judge_target(AT_LEAST, None, "the club was hidden"),
        "watched fail": judge_target(target(at_least="5 cm", watch_only="true"), knee(0.01)),
    }
    return [known[o] for o in outcomes]


@pytest.mark.parametrize(
    ("targets", "whole"),
    [
        (["pass"], Outcome.PASS),
        (["pass", "pass"], Outcome.PASS),
        (["pass", "fail"], Outcome.FAIL),
        (["close", "fail", "hidden"], Outcome.FAIL),
        (["pass", "close"], Outcome.TOO_CLOSE),
        (["pass", "hidden"], Outcome.TOO_CLOSE),
        (["pass", "watched fail"], Outcome.PASS),
        (["watched fail"], Outcome.TOO_CLOSE),
        ([], Outcome.TOO_CLOSE),
    ],
)
def test_the_whole_passes_only_if_every_deciding_target_does(
    targets: list[str], whole: Outcome
) -> None:
    verdict = judge_swing(7, answers(*targets))
    assert verdict.swing_number == 7
    assert verdict.outcome is whole
    assert len(verdict.targets) == len(targets)
    assert verdict.reason


def test_a_failed_swing_says_only_what_failed() -> None:
    verdict = judge_swing(1, answers("pass", "fail", "watched fail"))
    assert verdict.reason == answers("fail")[0].reason
