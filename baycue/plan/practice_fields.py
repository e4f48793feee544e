"""The kinds of value a key of ``practice`` may hold."""

import re
from collections.abc import Callable
from enum import Enum
from typing import Annotated

from pydantic import BeforeValidator, PlainValidator, WithJsonSchema

from baycue.measures.measurement import Unit
from baycue.plan.fields import one_value, within
from baycue.plan.units import Quantity, parse_quantity, signs
from baycue.plan.words import choose, choose_checkpoint, refuse
from baycue.practice.catalogue import drill_named, drills
from baycue.practice.schedules import schedule_kinds, schedule_named
from baycue.swing.swing import CheckpointName

HELD_CHECKPOINTS = (
    CheckpointName.P2,
    CheckpointName.P3,
    CheckpointName.P5,
    CheckpointName.P6,
    CheckpointName.P8,
)
"""Those that a still golfer shows by an angle: shaft parallel, or lead arm parallel."""

MOST_GOES, MOST_SEED = 500, 2**31 - 1
_SECONDS = re.compile(r"(\d+(?:\.\d+)?)\s*s")
_PERCENT = re.compile(r"(\d+(?:\.\d+)?)\s*%")


class Order(Enum):
    """How the drills of one block take turns."""

    BLOCKED = "blocked"
    SERIAL = "in turn"
    RANDOM = "random"


class TooClose(Enum):
    """What "too close to call" counts as in a rate of passing."""

    NOT_A_PASS = "not a pass"
    PASS = "a pass"
    LEFT_OUT = "left out"


def _drill_name(value: object) -> str:
    name = " ".join(one_value(value).lower().split())
    if drill_named(name) is None:
        raise refuse(str(value), "drill", (drill.name for drill in drills()))
    return name


def _schedule_word(value: object) -> str:
    word = " ".join(one_value(value).lower().split())
    if schedule_named(word) is None:
        raise refuse(str(value), "schedule", (kind.word for kind in schedule_kinds()))
    return word


def _whole(low: int, high: int) -> Callable[[object], int]:
    def read(value: object) -> int:
        if isinstance(value, int):
            return value
        text = one_value(value)
        if not re.fullmatch(r"\d{1,12}", text) or not low <= int(text) <= high:
            raise ValueError(f'"{value}" is not allowed; give a whole number from {low} to {high}')
        return int(text)

    return read


def _seconds(low: float, high: float) -> Callable[[object], float]:
    def read(value: object) -> float:
        if isinstance(value, float):
            return value
        match = _SECONDS.fullmatch(one_value(value))
        if match is None or not low <= float(match[1]) <= high:
            raise ValueError(f'"{value}" is not allowed; give {low:g} s to {high:g} s')
        return float(match[1])

    return read


def _percent(low: float, high: float) -> Callable[[object], float]:
    def read(value: object) -> float:
        if isinstance(value, float):
            return value
        match = _PERCENT.fullmatch(one_value(value))
        if match is None or not low <= float(match[1]) <= high:
            raise ValueError(f'"{value}" is not allowed; give {low:g} % to {high:g} %')
        return float(match[1]) / 100

    return read


def _held_checkpoint(value: object) -> CheckpointName:
    found = value if isinstance(value, CheckpointName) else choose_checkpoint(one_value(value))
    if found not in HELD_CHECKPOINTS:
        raise refuse(str(value), "checkpoint to hold at", (c.value for c in HELD_CHECKPOINTS))
    return found


def _give_or_take(unit: Unit, low: float, high: float, said: str) -> Callable[[object], Quantity]:
    def read(value: object) -> Quantity:
        if isinstance(value, Quantity):
            return value
        quantity = parse_quantity(one_value(value))
        if quantity.written.held is not unit:
            raise ValueError(f'"{value}" needs another unit; allowed: {signs(unit)}')
        return within(quantity, low, high, value, said)

    return read


def _choice(kind: type[Enum], what: str) -> BeforeValidator:
    return BeforeValidator(lambda v: v if isinstance(v, kind) else choose(one_value(v), kind, what))


def _number_schema(low: int, high: int) -> WithJsonSchema:
    return WithJsonSchema({"type": "integer", "minimum": low, "maximum": high})


def _text_schema(example: str) -> WithJsonSchema:
    return WithJsonSchema({"type": "string", "examples": [example]})


_HELD_AT = WithJsonSchema({"enum": [name.value for name in HELD_CHECKPOINTS]})
_angle = _give_or_take(Unit.DEGREE, 2, 45, "2 deg to 45 deg")
_length = _give_or_take(Unit.METRE, 0.01, 0.5, "1 cm to 50 cm")

DrillName = Annotated[str, BeforeValidator(_drill_name)]
ScheduleWord = Annotated[str, BeforeValidator(_schedule_word)]
Count = Annotated[int, PlainValidator(_whole(1, MOST_GOES)), _number_schema(1, MOST_GOES)]
Every = Annotated[int, PlainValidator(_whole(2, 50)), _number_schema(2, 50)]
Over = Annotated[int, PlainValidator(_whole(1, 10_000)), _number_schema(1, 10_000)]
Seed = Annotated[int, PlainValidator(_whole(0, MOST_SEED)), _number_schema(0, MOST_SEED)]
HoldTime = Annotated[float, PlainValidator(_seconds(0.5, 20)), _text_schema("2 s")]
Rest = Annotated[float, PlainValidator(_seconds(5, 900)), _text_schema("60 s")]
Share = Annotated[float, PlainValidator(_percent(0, 100)), _text_schema("50 %")]
PassRate = Annotated[float, PlainValidator(_percent(10, 95)), _text_schema("70 %")]
Confidence = Annotated[float, PlainValidator(_percent(50, 99.9)), _text_schema("95 %")]
HeldCheckpoint = Annotated[CheckpointName, PlainValidator(_held_checkpoint), _HELD_AT]
AngleWithin = Annotated[Quantity, PlainValidator(_angle), _text_schema("8 deg")]
LengthWithin = Annotated[Quantity, PlainValidator(_length), _text_schema("6 cm")]
OrderWord = Annotated[Order, _choice(Order, "order")]
TooCloseWord = Annotated[TooClose, _choice(TooClose, "choice")]
