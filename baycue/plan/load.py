"""Plan files in, checked plans out; every fault told with file, line and key."""

from pathlib import Path
from typing import Any, TypeVar, get_args

from pydantic import BaseModel, ValidationError
from pydantic.fields import FieldInfo
from pydantic_core import ErrorDetails

from baycue.errors import PlanError
from baycue.plan.document import Document, Fault, dotted, read_document
from baycue.plan.file import plan_text
from baycue.plan.plan import MOST_TARGETS, Plan, faults_across, practice_faults_in
from baycue.plan.practice import MOST_BLOCKS, PlanPractice
from baycue.plan.practice_block import MOST_DRILLS
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.plan.words import guess

M = TypeVar("M", bound=BaseModel)

_MOST_TOLD = 20


def load_plan(path: Path) -> Plan:
    """Read and check a plan file; PlanError has one line for each fault."""
    return parse_plan(plan_text(path), str(path))


def parse_plan(text: str, source: str) -> Plan:
    """Check a plan's text; ``source`` is what error lines call it. Raises PlanError."""
    return parse_with_lines(text, source)[0]


def parse_with_lines(text: str, source: str) -> tuple[Plan, Document]:
    """The same, with the document that knows in which line each key stands."""
    document = read_document(text)
    faults = list(document.faults)
    if not faults or document.data:
        try:
            plan = Plan.model_validate(document.data)
        except ValidationError as error:
            faults += [_fault(detail, document) for detail in _separate(error)]
            faults += _faults_across(document)
    if faults:
        raise PlanError("\n".join(_told(source, sorted(set(faults)))))
    return plan, document


def plan_schema() -> dict[str, Any]:
    """The JSON schema of a plan, for editors that check YAML while it is typed."""
    return Plan.model_json_schema(by_alias=True)


def _told(source: str, faults: list[Fault]) -> list[str]:
    more = len(faults) - _MOST_TOLD
    lines = [fault_line(source, fault) for fault in faults[:_MOST_TOLD]]
    return [*lines, f"{source}: and {more} more"] if more > 0 else lines


def fault_line(source: str, fault: Fault) -> str:
    """``plan.yaml:7: targets[1].at: missing``."""
    key = f"{fault.key}: " if fault.key else ""
    return f"{source}:{fault.line}: {key}{' '.join(fault.text.split())}"


def _separate(error: ValidationError) -> list[ErrorDetails]:
    """The errors that stand for themselves: not "no targets" when each target was refused,
    and not the first fault across targets, since all of those are listed.
    """
    return [
        detail
        for detail in error.errors()
        if not (detail["type"] == "too_short" and detail["input"])
        and not (detail["type"] == "value_error" and not detail["loc"])
    ]


def _fault(detail: ErrorDetails, document: Document) -> Fault:
    path = _as_written(detail["loc"])
    return Fault(document.line_of(path), dotted(path), _text(detail, path))


def _as_written(loc: tuple[int | str, ...]) -> tuple[int | str, ...]:
    return tuple({"start": "from", "end": "to"}.get(str(part), part) for part in loc)


def _text(detail: ErrorDetails, path: tuple[int | str, ...]) -> str:
    kind = detail["type"]
    if kind == "value_error":
        return str(detail["ctx"]["error"])
    if kind == "missing":
        return "missing; add this key"
    if kind == "extra_forbidden":
        keys = _keys(_model_at(path))
        return f"unknown key; allowed: {', '.join(keys)}{guess(str(path[-1]), keys)}"
    if kind in ("too_short", "too_long"):
        return _length_text(detail, str(path[-1]))
    if kind in ("tuple_type", "list_type"):
        return 'must be a list; start each item with "- "'
    return 'must be a mapping of "key: value" lines'


def _length_text(detail: ErrorDetails, what: str) -> str:
    """How many of something there are, and may be."""
    most = {"targets": MOST_TARGETS, "blocks": MOST_BLOCKS, "drills": MOST_DRILLS}
    low, high = (0, 8) if what == "progress" else (1, most[what])
    return f"has {detail['ctx']['actual_length']} {what}; allowed: {low} to {high}"


def _model_at(path: tuple[int | str, ...]) -> type[BaseModel]:
    """The model that holds the last key of a path."""
    model: type[BaseModel] = Plan
    for part in path[:-1]:
        if isinstance(part, str):
            model = _model_of(_field(model, part).annotation) or model
    return model


def _field(model: type[BaseModel], key: str) -> FieldInfo:
    found = (f for name, f in model.model_fields.items() if key in (f.alias, name))
    return next(found)


def _model_of(annotation: object) -> type[BaseModel] | None:
    """The model in an annotation such as ``tuple[Target, ...] | None``."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    inner = (_model_of(part) for part in get_args(annotation))
    return next((model for model in inner if model), None)


def _keys(model: type[BaseModel]) -> list[str]:
    return [field.alias or name for name, field in model.model_fields.items()]


def _faults_across(document: Document) -> list[Fault]:
    """Wrong views, duplicates and the like, among those parts that are right in themselves."""
    if not isinstance(document.data, dict):
        return []
    targets = document.data.get("targets")
    sound = [
        (place, target)
        for place, raw in enumerate(targets if isinstance(targets, list) else [])
        if (target := _sound(Target, raw))
    ]
    view = next((v for v in View if v.value == str(document.data.get("view", "")).lower()), None)
    practice = _sound(PlanPractice, document.data.get("practice"))
    across = [(("targets", p, key), text) for p, key, text in faults_across(view, sound)]
    places = practice_faults_in(view, [target for _, target in sound], practice)
    within = [(("practice", *place), text) for place, text in places]
    return [Fault(document.line_of(path), dotted(path), text) for path, text in (*across, *within)]


def _sound(model: type[M], raw: object) -> M | None:
    try:
        return model.model_validate(raw)
    except ValidationError:
        return None
