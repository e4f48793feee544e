"""Quantities: read in any unit, said back in the same one."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from baycue.measures.measurement import Unit
from baycue.plan.units import WrittenUnit, in_unit, parse_quantity, say


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("178 cm", 1.78),
        ("178cm", 1.78),
        ("1780 mm", 1.78),
        ("1.78 m", 1.78),
        ("-4 CM", -0.04),
        (".5 in", 0.0127),
        ("+2 deg", 2.0),
        ("3.0", 3.0),
    ],
)
def test_reads_a_number_and_its_unit(text: str, value: float) -> None:
    assert parse_quantity(text).value == value


def test_an_inch_and_a_foot_are_the_international_ones() -> None:
    # International yard and pound agreement, 1959: 1 in = 25.4 mm and 1 ft = 304.8 mm exactly.
    assert parse_quantity("1 in").value == 0.0254
    assert parse_quantity("1 ft").value == 0.3048
    assert parse_quantity("5 ft 10 in").value == 70 * 0.0254


@pytest.mark.parametrize(
    "text", ["", "cm", "5 5 cm", "5,0 cm", "nan", "inf cm", "1e3 cm", "5 cm 2 mm", "5" * 40]
)
def test_refuses_what_is_not_a_quantity(text: str) -> None:
    with pytest.raises(ValueError, match=r"not a number with a unit|unknown unit"):
        parse_quantity(text)


def test_an_unknown_unit_lists_the_known_ones() -> None:
    with pytest.raises(ValueError, match=r'"3 yd" .* "yd"; allowed: mm, cm, m, in, ft, deg'):
        parse_quantity("3 yd")


@pytest.mark.parametrize(
    ("value", "unit", "said"),
    [
        (0.031, WrittenUnit.CM, "3.1 cm"),
        (0.031, WrittenUnit.MM, "31 mm"),
        (0.0254, WrittenUnit.INCH, "1.0 in"),
        (-0.0001, WrittenUnit.CM, "0.0 cm"),
        (2.98, WrittenUnit.RATIO, "2.98"),
    ],
)
def test_says_a_value_in_the_coachs_unit(value: float, unit: WrittenUnit, said: str) -> None:
    assert say(value, unit) == said


@given(
    number=st.decimals(-999, 999, places=2),
    unit=st.sampled_from([u for u in WrittenUnit if u.held is Unit.METRE]),
)
def test_reading_back_what_was_written_gives_the_number(number: object, unit: WrittenUnit) -> None:
    quantity = parse_quantity(f"{number} {unit.sign}")
    assert quantity.written is unit
    assert in_unit(quantity.value, unit) == pytest.approx(float(str(number)), abs=1e-9)
