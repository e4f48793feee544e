"""What a plan may say of scale and lens."""

import pytest

from baycue.errors import PlanError
from baycue.plan.camera_facts import Lens, ScaleBy
from baycue.plan.load import parse_plan, plan_schema
from tests.test_plan_load import HEAD, KNEE, plan_text, refusal


def told(extra: str) -> str:
    return plan_text(KNEE, head=HEAD + extra + "\n")


def test_without_a_word_it_is_the_stature_and_a_normal_lens() -> None:
    plan = parse_plan(plan_text(KNEE), "p")
    assert plan.scale.by is ScaleBy.STATURE
    assert plan.camera.lens is Lens.NORMAL
    assert plan.camera.lens.bow == 0


def test_a_stick_and_a_board_are_told() -> None:
    stick = parse_plan(told("scale: {by: stick, length: 48 in, in_front_of_toes: 3 cm}"), "p").scale
    assert stick.by is ScaleBy.STICK
    assert stick.length is not None
    assert stick.length.value == pytest.approx(1.2192)
    assert stick.in_front_of_toes is not None
    assert stick.in_front_of_toes.value == pytest.approx(0.03)
    board = parse_plan(told("scale: {by: board, check_line: 98 mm}"), "p").scale
    assert board.check_line is not None
    assert board.check_line.value == pytest.approx(0.098)


@pytest.mark.parametrize("word", ["normal", "wide", "Fisheye"])
def test_lenses_are_told_by_word(word: str) -> None:
    assert parse_plan(told(f"camera: {{lens: {word}}}"), "p").camera.lens.value == word.lower()


def test_lenses_bow_in_the_order_of_their_names() -> None:
    assert Lens.NORMAL.bow < Lens.WIDE.bow < Lens.FISHEYE.bow


FAULTS = [
    ("scale: {by: stik, length: 1 m}", "scale.by", 'did you mean "stick"?'),
    ("scale: {by: stick}", "scale.length", "missing"),
    ("scale: {by: stick, length: 1}", "scale.length", "needs a unit, such as 1.00 m"),
    ("scale: {by: stick, length: 3 m}", "scale.length", "30 cm to 200 cm"),
    ("scale: {by: stick, length: 1 deg}", "scale.length", "wrong unit"),
    ("scale: {by: stick, length: 1 m, in_front_of_toes: 2 m}", "scale.in_front", "0 cm to 60 cm"),
    ("scale: {by: board, length: 1 m}", "scale.length", 'it goes with "by: stick"'),
    ("scale: {by: stick, length: 1 m, check_line: 98 mm}", "scale.check_line", "by: board"),
    ("scale: {by: board, check_line: 98 cm}", "scale.check_line", "80 mm to 120 mm"),
    ("scale: {by: board, chek_line: 98 mm}", "scale.chek_line", 'did you mean "check_line"?'),
    ("scale: {length: 1 m}", "scale.length", 'it goes with "by: stick"'),
    ("scale: board", "scale", "mapping"),
    ("camera: {lens: fish eye}", "camera.lens", 'did you mean "fisheye"?'),
]


@pytest.mark.parametrize(("extra", "key", "words"), FAULTS)
def test_a_faulty_word_is_told_by_line_and_key(extra: str, key: str, words: str) -> None:
    (line,) = refusal(told(extra))
    assert line.startswith(f"plan.yaml:5: {key}")
    assert words in line


def test_the_schema_names_the_keys_and_allows_no_other() -> None:
    scale = plan_schema()["$defs"]["PlanScale"]
    assert set(scale["properties"]) == {"by", "length", "in_front_of_toes", "check_line"}
    assert not scale["additionalProperties"]


def test_a_plan_error_is_raised() -> None:
    with pytest.raises(PlanError):
        parse_plan(told("scale: {by: board, length: 1 m}"), "p")
