"""The kinds of value a plan key may hold, each with its own check and plain error text."""

from collections.abc import Callable
from typing import Annotated, Any

from pydantic import BeforeValidator, PlainValidator, WithJsonSchema

from baycue.measures.catalogue import measure_named, measures
from baycue.measures.measurement import Unit
from baycue.plan.camera_facts import Lens, ScaleBy
from baycue.plan.stance import Handedness, View
from baycue.plan.units import Quantity, parse_quantity, signs
from baycue.plan.words import check_order, checkpoint_words, choose, choose_checkpoint, refuse
from baycue.swing.swing import CheckpointName

_LONGEST_TEXT = 500
_LONGEST_NAME = 60
_YES_NO = {"true": True, "yes": True, "false": False, "no": False}


def one_value(value: object) -> str:
    """The text of one value; ValueError for a list, a mapping or nothing."""
    if isinstance(value, dict | list):
        raise ValueError("must be one value, not a list or a mapping")
    text = str(value).strip()
    if not text:
        raise ValueError("is empty; give a value or leave the key out")
    return text


def _text(value: object) -> str:
    text = one_value(value)
    if len(text) > _LONGEST_TEXT:
        raise ValueError(f"has {len(text)} characters; allowed: at most {_LONGEST_TEXT}")
    return text


def _short_text(value: object) -> str:
    text = one_value(value)
    if len(text) > _LONGEST_NAME or not text.isprintable():
        raise ValueError(f"must be one line of at most {_LONGEST_NAME} printable characters")
    return text


def _yes_no(value: object) -> bool:
    text = one_value(value).lower()
    if text not in _YES_NO:
        raise refuse(str(value), "answer", ("true", "false"))
    return _YES_NO[text]


def _measure_name(value: object) -> str:
    name = " ".join(one_value(value).lower().split())
    if measure_named(name) is None:
        raise refuse(str(value), "measure", (m.name for m in measures()))
    return name


def _quantity(value: object) -> Quantity:
    return value if isinstance(value, Quantity) else parse_quantity(one_value(value))


def _held_in(value: object, unit: Unit, example: str) -> Quantity:
    quantity = _quantity(value)
    if quantity.written.held is not unit:
        raise ValueError(
            f'"{value}" needs a unit, such as {example}; allowed: {signs(unit)}'
            if quantity.written.held is Unit.RATIO
            else f'"{value}" has the wrong unit; allowed: {signs(unit)}'
        )
    return quantity


def within(quantity: Quantity, low: float, high: float, text: object, said: str) -> Quantity:
    """The quantity itself if within bounds (held units); ValueError naming them otherwise."""
    if not low <= quantity.value <= high:
        raise ValueError(f'"{text}" is out of range; allowed: {said}')
    return quantity


def _stature(value: object) -> Quantity:
    length = _held_in(value, Unit.METRE, "178 cm")
    return within(length, 0.8, 2.5, value, "80 cm to 250 cm")


def _field_of_view(value: object) -> Quantity:
    angle = _held_in(value, Unit.DEGREE, "70 deg")
    return within(angle, 20, 140, value, "20 deg to 140 deg")


def _stick_length(value: object) -> Quantity:
    length = _held_in(value, Unit.METRE, "1.00 m")
    return within(length, 0.3, 2.0, value, "30 cm to 200 cm")


def _gap(value: object) -> Quantity:
    gap = _held_in(value, Unit.METRE, "5 cm")
    return within(gap, 0.0, 0.6, value, "0 cm to 60 cm")


def _check_line(value: object) -> Quantity:
    length = _held_in(value, Unit.METRE, "100 mm")
    return within(length, 0.08, 0.12, value, "80 mm to 120 mm")


def _band(value: object) -> float:
    try:
        band = float(one_value(value))
    except ValueError as error:
        raise ValueError(f'"{value}" is not a number of sigmas, such as 1.5') from error
    if not 0 < band <= 10:
        raise ValueError(f'"{value}" is out of range; allowed: more than 0, at most 10')
    return band


def _between(value: object) -> tuple[Quantity, Quantity]:
    if not isinstance(value, list | tuple) or len(value) != 2:
        raise ValueError("must be a list of two values, such as [2 cm, 5 cm]")
    low, high = _quantity(value[0]), _quantity(value[1])
    if low.written.held is high.written.held and low.value >= high.value:
        raise ValueError(
            f'contradicts itself: "{value[0]}" is not below "{value[1]}"; '
            "the smaller value comes first"
        )
    return low, high


def _span(value: object) -> tuple[CheckpointName, CheckpointName]:
    if not isinstance(value, list | tuple) or len(value) != 2:
        raise ValueError("must be a list of two checkpoints, such as [top, impact]")
    start, end = (
        v if isinstance(v, CheckpointName) else choose_checkpoint(one_value(v)) for v in value
    )
    check_order(start, end)
    return start, end


def _enum(choose_one: Any, kind: type) -> BeforeValidator:
    return BeforeValidator(lambda v: v if isinstance(v, kind) else choose_one(one_value(v)))


class _OneOf:
    """The words that editors offer and accept; asked for when a schema is made."""

    def __init__(self, words: Callable[[], list[str]]) -> None:
        self._words = words

    def __get_pydantic_json_schema__(self, schema: object, handler: object) -> dict[str, Any]:
        return {"type": "string", "enum": self._words()}


_LENGTH = {"type": "string", "examples": ["178 cm", "1.78 m", "5 ft 10 in"]}
_ANGLE = {"type": "string", "examples": ["70 deg"]}
_STICK = {"type": "string", "examples": ["1.00 m", "48 in"]}
_GAP = {"type": "string", "examples": ["5 cm"]}
_CHECK_LINE = {"type": "string", "examples": ["100 mm"]}
_BOUND = {"type": ["string", "number"], "examples": ["5 cm", "30 deg", 3.0]}
_CHECKPOINTS = {
    "type": "array",
    "items": {"type": "string", "enum": checkpoint_words()},
    "minItems": 2,
    "maxItems": 2,
}
_PAIR = {"type": "array", "items": _BOUND, "minItems": 2, "maxItems": 2}
_POSITIVE = {"type": "number", "exclusiveMinimum": 0, "maximum": 10}

Text = Annotated[str, BeforeValidator(_text)]
ShortText = Annotated[str, BeforeValidator(_short_text)]
YesNo = Annotated[bool, BeforeValidator(_yes_no)]
MeasureName = Annotated[
    str, BeforeValidator(_measure_name), _OneOf(lambda: [m.name for m in measures()])
]
Stature = Annotated[Quantity, PlainValidator(_stature), WithJsonSchema(_LENGTH)]
FieldOfView = Annotated[Quantity, PlainValidator(_field_of_view), WithJsonSchema(_ANGLE)]
StickLength = Annotated[Quantity, PlainValidator(_stick_length), WithJsonSchema(_STICK)]
Gap = Annotated[Quantity, PlainValidator(_gap), WithJsonSchema(_GAP)]
CheckLine = Annotated[Quantity, PlainValidator(_check_line), WithJsonSchema(_CHECK_LINE)]
BoundValue = Annotated[Quantity, PlainValidator(_quantity), WithJsonSchema(_BOUND)]
Between = Annotated[tuple[Quantity, Quantity], PlainValidator(_between), WithJsonSchema(_PAIR)]
Band = Annotated[float, PlainValidator(_band), WithJsonSchema(_POSITIVE)]
Side = Annotated[Handedness, _enum(lambda v: choose(v, Handedness, "handedness"), Handedness)]
ViewName = Annotated[View, _enum(lambda v: choose(v, View, "view"), View)]
ScaleWord = Annotated[ScaleBy, _enum(lambda v: choose(v, ScaleBy, "scale"), ScaleBy)]
LensWord = Annotated[Lens, _enum(lambda v: choose(v, Lens, "lens"), Lens)]
CheckpointWord = Annotated[
    CheckpointName, _enum(choose_checkpoint, CheckpointName), _OneOf(checkpoint_words)
]
Span = Annotated[
    tuple[CheckpointName, CheckpointName], PlainValidator(_span), WithJsonSchema(_CHECKPOINTS)
]
