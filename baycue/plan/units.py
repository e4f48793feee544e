"""Quantities as a coach writes them: a number and its unit, said back the same way."""

import re
from dataclasses import dataclass
from decimal import Decimal
from enum import Enum

from baycue.measures.measurement import Unit

_NUMBER = r"[+-]?(?:\d+(?:\.\d*)?|\.\d+)"
_SINGLE = re.compile(rf"({_NUMBER})\s*([^\d\s.+-][^\s]*)?")
_FEET_AND_INCHES = re.compile(rf"(\d+)\s*ft\s+({_NUMBER})\s*in", re.IGNORECASE)
_LONGEST_NUMBER = 24


class WrittenUnit(Enum):
    """A unit a plan may use: its sign, the unit it is held in, how many held units it is."""

    MM = ("mm", Unit.METRE, "0.001", 0)
    CM = ("cm", Unit.METRE, "0.01", 1)
    M = ("m", Unit.METRE, "1", 3)
    INCH = ("in", Unit.METRE, "0.0254", 1)
    FOOT = ("ft", Unit.METRE, "0.3048", 2)
    DEGREE = ("deg", Unit.DEGREE, "1", 1)
    MS = ("ms", Unit.SECOND, "0.001", 0)
    S = ("s", Unit.SECOND, "1", 2)
    RATIO = ("", Unit.RATIO, "1", 2)

    def __init__(self, sign: str, held: Unit, size: str, decimals: int) -> None:
        self.sign = sign
        self.held = held
        self.size = Decimal(size)
        self.decimals = decimals


@dataclass(frozen=True, slots=True)
class Quantity:
    """``value`` in the held unit (metre, degree, second, ratio); ``written``: the coach's unit."""

    value: float
    written: WrittenUnit


def parse_quantity(text: str) -> Quantity:
    """Read ``178 cm``, ``5 ft 10 in``, ``70 deg`` or ``3.0``.

    Raises ValueError with what is wrong and what is allowed.
    """
    feet = _FEET_AND_INCHES.fullmatch(text.strip())
    if feet:
        inches = 12 * Decimal(feet[1]) + Decimal(feet[2])
        return Quantity(float(inches * WrittenUnit.INCH.size), WrittenUnit.INCH)
    match = _SINGLE.fullmatch(text.strip())
    if not match or len(match[1]) > _LONGEST_NUMBER:
        raise ValueError(f'"{text}" is not a number with a unit, such as 5 cm')
    written = _unit_signed(text, match[2] or "")
    return Quantity(float(Decimal(match[1]) * written.size), written)


def _unit_signed(text: str, sign: str) -> WrittenUnit:
    for unit in WrittenUnit:
        if unit.sign == sign.lower():
            return unit
    raise ValueError(f'"{text}" has the unknown unit "{sign}"; allowed: {signs()}')


def signs(held: Unit | None = None) -> str:
    """The unit signs a plan may use, for error texts."""
    return ", ".join(u.sign for u in WrittenUnit if u.sign and held in (None, u.held))


def say(value: float, written: WrittenUnit, decimals: int | None = None) -> str:
    """A held value in the coach's unit: ``say(0.031, CM)`` is ``3.1 cm``."""
    number = in_unit(value, written)
    places = written.decimals if decimals is None else decimals
    text = f"{number:.{places}f}"
    if float(text) == 0:
        text = text.lstrip("-")
    return f"{text} {written.sign}".strip()


def in_unit(value: float, written: WrittenUnit) -> float:
    """A held value counted in the coach's unit."""
    return value / float(written.size)
