"""A block of practice: which drills, how many goes, in which order, and what is told of them."""

from typing import Annotated, Any

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, ValidationInfo, field_validator

from baycue.plan import fields
from baycue.plan import practice_fields as own
from baycue.plan.target import Target
from baycue.plan.units import Quantity, WrittenUnit
from baycue.practice.catalogue import drill_named
from baycue.practice.drill import Drill, Ends
from baycue.practice.schedule import Band, Settings
from baycue.practice.schedules import schedule_named
from baycue.swing.swing import CheckpointName

MOST_DRILLS = 6
_HOLD_KEYS = ("at", "hold", "shaft_within", "arm_within", "butt_within")
_ARM_PARALLEL = (CheckpointName.P3, CheckpointName.P5)
_USUAL_ANGLE = Quantity(10.0, WrittenUnit.DEGREE)


class PracticeDrill(BaseModel):
    """One drill of a block and how many goes at it.

    ``at``, ``hold`` and the windows belong to a drill that ends with a hold: which checkpoint,
    for how long, and how near the angle, or the butt to the belt buckle, must be.  ``targets``:
    this drill's own, if they are not the plan's.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    drill: own.DrillName
    count: own.Count
    at: own.HeldCheckpoint | None = None
    hold: own.HoldTime | None = None
    shaft_within: own.AngleWithin | None = None
    arm_within: own.AngleWithin | None = None
    butt_within: own.LengthWithin | None = None
    targets: Annotated[tuple[Target, ...], Field(min_length=1, max_length=4)] | None = None

    @property
    def kind(self) -> Drill:
        """What the drill is."""
        found = drill_named(self.drill)
        assert found is not None, "plans are checked against the catalogue"
        return found

    @property
    def angle_within(self) -> Quantity:
        """Half the width of the window about the checkpoint's angle."""
        return self.shaft_within or self.arm_within or _USUAL_ANGLE

    @property
    def arm_is_parallel(self) -> bool:
        """Whether the checkpoint is told by the lead arm and not by the shaft."""
        return self.at in _ARM_PARALLEL

    @field_validator(*_HOLD_KEYS)
    @classmethod
    def _goes_with_a_hold(cls, value: Any, info: ValidationInfo) -> Any:
        drill = drill_named(info.data.get("drill") or "")
        if drill is None:
            return value
        key, held = str(info.field_name), drill.ends is Ends.HOLD
        if not held and value is not None:
            raise ValueError(f'does not belong here; "{drill.name}" ends {drill.ends.value}')
        if held and value is None and key in ("at", "hold"):
            example = {"at": "P6", "hold": "2 s"}[key]
            raise ValueError(f'missing; "{drill.name}" needs it, such as {example}')
        if value is not None and info.data.get("at"):
            _check_window(key, info.data["at"])
        return value

    @field_validator("targets")
    @classmethod
    def _judged(cls, value: Any, info: ValidationInfo) -> Any:
        drill = drill_named(info.data.get("drill") or "")
        if value and drill and drill.ends is Ends.HOLD:
            raise ValueError(f'does not belong here; "{drill.name}" has a window, no targets')
        return value


def _check_window(key: str, at: CheckpointName) -> None:
    """The shaft's window goes with shaft parallel, the arm's with lead arm parallel."""
    wanted = "arm_within" if at in _ARM_PARALLEL else "shaft_within"
    if key in ("shaft_within", "arm_within") and key != wanted:
        raise ValueError(f'does not belong here; at {at.value} it is "{wanted}"')


class PracticeFeedback(BaseModel):
    """Of which swings the golfer is told; a lone word is short for ``show``."""

    model_config = ConfigDict(
        frozen=True, extra="forbid", validate_default=True, populate_by_name=True
    )

    show: own.ScheduleWord = "every swing"
    start: own.Share | None = Field(None, alias="from")
    end: own.Share | None = Field(None, alias="to")
    every: own.Every | None = None
    band: fields.BoundValue | None = None

    @field_validator("start", "end", "every", "band")
    @classmethod
    def _belongs(cls, value: Any, info: ValidationInfo) -> Any:
        key = {"start": "from", "end": "to"}.get(str(info.field_name), str(info.field_name))
        kind = schedule_named(info.data.get("show") or "")
        if kind and value is not None and key not in kind.keys:
            goes = ", ".join(sorted(kind.keys)) or "no other key"
            raise ValueError(f'does not belong here; with "{kind.word}" goes {goes}')
        if key == "band" and isinstance(value, Quantity) and value.value < 0:
            raise ValueError("is negative; a band is how far beyond a bound still counts as inside")
        if key == "to" and None not in (value, info.data.get("start")):
            _check_fades(info.data["start"], value)
        return value

    def settings(self, swings: int, seed: tuple[int, ...]) -> Settings:
        """For a block of so many swings."""
        usual = Settings(swings, seed)
        return Settings(
            swings,
            seed,
            usual.from_share if self.start is None else self.start,
            usual.to_share if self.end is None else self.end,
            self.every or usual.every,
            Band(self.band.value, self.band.written.held) if self.band else None,
        )


def _check_fades(start: float, end: float) -> None:
    if end > start:
        raise ValueError(f"is more than the {100 * start:g} % it fades from")


def _worded(value: object) -> object:
    return {"show": value} if isinstance(value, str) else value


class PracticeBlock(BaseModel):
    """Some drills, one after the other or mixed; ``rest`` is how long to rest afterwards."""

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    name: fields.ShortText | None = None
    drills: Annotated[tuple[PracticeDrill, ...], Field(min_length=1, max_length=MOST_DRILLS)]
    order: own.OrderWord = own.Order.BLOCKED
    feedback: Annotated[
        PracticeFeedback, BeforeValidator(_worded, json_schema_input_type=str | PracticeFeedback)
    ] = PracticeFeedback.model_validate({})
    rest: own.Rest | None = None

    @property
    def goes(self) -> int:
        """How many in all."""
        return sum(drill.count for drill in self.drills)

    @property
    def judged(self) -> int:
        """How many of them are swings with a verdict."""
        return sum(d.count for d in self.drills if d.kind.ends is not Ends.HOLD)

    @property
    def title(self) -> str:
        """The coach's name for it, or its drills'."""
        return self.name or ", ".join(dict.fromkeys(drill.drill for drill in self.drills))
