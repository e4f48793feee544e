"""One target: a measure, when it is taken, and the bound it must meet."""

from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel, ConfigDict, Field, ValidationInfo, field_validator

from baycue.measures.catalogue import measure_named
from baycue.measures.measure import Measure, When
from baycue.plan import fields, rules
from baycue.plan.units import Quantity
from baycue.swing.swing import CheckpointName

_KEY = {"at": "at", "start": "from", "end": "to"}
_BOUND_KEYS = ("at_least", "at_most", "between")


@dataclass(frozen=True, slots=True)
class Bound:
    """The values that pass: from ``low`` up, up to ``high``, or both; at least one is set."""

    low: Quantity | None
    high: Quantity | None


class Target(BaseModel):
    """A coach's target; the YAML keys are the field names, ``from`` and ``to`` for a span.

    ``band`` counts the sigmas of the measurement within which a bound is too close to call.
    A ``watch_only`` target is reported and does not decide the swing.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    measure: fields.MeasureName
    at: fields.CheckpointWord | None = None
    start: fields.CheckpointWord | None = Field(None, alias="from")
    end: fields.CheckpointWord | None = Field(None, alias="to")
    at_least: fields.BoundValue | None = None
    at_most: fields.BoundValue | None = None
    between: fields.Between | None = None
    band: fields.Band = 1.0
    name: fields.ShortText | None = None
    cue: fields.ShortText | None = None
    watch_only: fields.YesNo = False

    @property
    def when(self) -> When:
        """The checkpoints to take the measure at."""
        return When(self.at, self.at) if self.at else When(self.start, self.end)

    @property
    def bound(self) -> Bound:
        """The passing values, whichever way they were written."""
        if self.between:
            return Bound(*self.between)
        return Bound(self.at_least, self.at_most)

    @property
    def title(self) -> str:
        """The coach's name for the target, or one made from measure and checkpoints."""
        if self.name:
            return self.name
        if self.at:
            return f"{self.measure} at {self.at.value}"
        if self.start and self.end:
            return f"{self.measure}, {self.start.value} to {self.end.value}"
        return self.measure

    @field_validator("at", "start", "end")
    @classmethod
    def _moment(cls, value: CheckpointName | None, info: ValidationInfo) -> CheckpointName | None:
        measure = _measure(info)
        if measure:
            rules.check_moment(measure, _KEY[str(info.field_name)], value is not None)
        if info.field_name == "end":
            rules.check_order(info.data.get("start"), value)
        return value

    @field_validator(*_BOUND_KEYS)
    @classmethod
    def _bounds(cls, value: Any, info: ValidationInfo) -> Any:
        measure = _measure(info)
        if measure and value:
            for quantity in value if isinstance(value, tuple) else (value,):
                rules.check_bound(measure, quantity)
        if info.field_name == _BOUND_KEYS[-1]:
            rules.check_one_bound(_bounds_given(value, info))
        return value


def _measure(info: ValidationInfo) -> Measure | None:
    name = info.data.get("measure")
    return measure_named(name) if name else None


def _bounds_given(between: object, info: ValidationInfo) -> list[str]:
    """The bound keys the plan has; one refused already counts as given."""
    earlier = [k for k in _BOUND_KEYS[:-1] if info.data.get(k, "refused") is not None]
    return [*earlier, _BOUND_KEYS[-1]] if between else earlier
