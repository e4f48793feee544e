"""The plan a coach writes for one student."""

from collections.abc import Iterator, Sequence
from typing import Annotated

from pydantic import (
    BaseModel,
    ConfigDict,
    Field,
    ValidationInfo,
    field_validator,
    model_validator,
)

from baycue.measures.catalogue import measure_named
from baycue.plan import fields
from baycue.plan.camera_facts import Lens, ScaleBy
from baycue.plan.practice import Place, PlanPractice, practice_faults
from baycue.plan.practice_block import PracticeDrill
from baycue.plan.sight import why_not_shown
from baycue.plan.stance import View
from baycue.plan.target import Target
from baycue.plan.units import Quantity, WrittenUnit

MOST_TARGETS = 4
"""What the big screen shows legibly at once, and more than most golfers attend to."""


def _usual_field_of_view() -> Quantity:
    return Quantity(70.0, WrittenUnit.DEGREE)


class PlanCamera(BaseModel):
    """What the coach says of the camera; a webcam may mirror its picture."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    mirrored: fields.YesNo = False
    field_of_view: fields.FieldOfView = Field(default_factory=_usual_field_of_view)
    lens: fields.LensWord = Lens.NORMAL

    @property
    def horizontal_fov_deg(self) -> float:
        """Horizontal field of view, degrees."""
        return self.field_of_view.value


class PlanScale(BaseModel):
    """What tells metres in the picture, and what the coach says of it.

    ``length`` is the stick's, ``in_front_of_toes`` how far from them it lies; ``check_line``
    is how long the board's 100 mm line came out of the printer.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", validate_default=True)

    by: fields.ScaleWord = ScaleBy.STATURE
    length: fields.StickLength | None = None
    in_front_of_toes: fields.Gap | None = None
    check_line: fields.CheckLine | None = None

    @field_validator("length", "in_front_of_toes", "check_line")
    @classmethod
    def _belongs(cls, value: Quantity | None, info: ValidationInfo) -> Quantity | None:
        key, by = str(info.field_name), info.data.get("by")
        owner = ScaleBy.BOARD if key == "check_line" else ScaleBy.STICK
        if by and value is not None and by is not owner:
            raise ValueError(f'does not belong here; it goes with "by: {owner.value}"')
        if by is ScaleBy.STICK and key == "length" and value is None:
            raise ValueError('missing; "by: stick" needs the stick\'s length, such as 1.00 m')
        return value


class Plan(BaseModel):
    """A student's facts and targets, checked.

    ``practice``: what is done in a session; None for full swings for ever.
    """

    model_config = ConfigDict(frozen=True, extra="forbid")

    student: fields.ShortText
    coach: fields.ShortText | None = None
    notes: fields.Text | None = None
    handedness: fields.Side
    stature: fields.Stature
    view: fields.ViewName
    camera: PlanCamera = Field(default_factory=PlanCamera)
    scale: PlanScale = Field(default_factory=PlanScale)
    targets: Annotated[tuple[Target, ...], Field(min_length=1, max_length=MOST_TARGETS)]
    practice: PlanPractice | None = None

    @property
    def stature_m(self) -> float:
        """Body height, metres."""
        return self.stature.value

    @property
    def all_targets(self) -> tuple[Target, ...]:
        """The plan's own and then every drill's: where titles are alike, the first is meant."""
        blocks = self.practice.blocks if self.practice else ()
        drills = (drill for block in blocks for drill in block.drills)
        return (*self.targets, *(target for drill in drills for target in drill.targets or ()))

    def for_drill(self, drill: PracticeDrill) -> "Plan":
        """The plan with the drill's own targets, if it has some."""
        return self.model_copy(update={"targets": drill.targets}) if drill.targets else self

    @model_validator(mode="after")
    def _targets_fit_together(self) -> "Plan":
        faults = list(faults_across(self.view, list(enumerate(self.targets))))
        if faults:
            raise ValueError(faults[0][2])
        for _, text in practice_faults_in(self.view, self.targets, self.practice):
            raise ValueError(text)
        return self


def practice_faults_in(
    view: View | None, targets: Sequence[Target], practice: PlanPractice | None
) -> Iterator[tuple[Place, str]]:
    """Faults of the practice section and of its drills' own targets; yields (place, text)."""
    if practice is None:
        return
    for b, block in enumerate(practice.blocks):
        for d, drill in enumerate(block.drills):
            for place, key, text in faults_across(view, list(enumerate(drill.targets or ()))):
                yield ("blocks", b, "drills", d, "targets", place, key), text
    yield from practice_faults(view, targets, practice)


def faults_across(
    view: View | None, targets: Sequence[tuple[int, Target]]
) -> Iterator[tuple[int, str, str]]:
    """Faults that show only when targets are seen with the view and with each other.

    ``targets`` are (place in the list, target); yields (place, key, text).
    """
    for place, target in targets:
        measure = measure_named(target.measure)
        if view and measure and view not in measure.views:
            views = ", ".join(sorted(v.value for v in measure.views))
            yield (
                place,
                "measure",
                (f'"{measure.name}" cannot be seen {view.value}; allowed views: {views}'),
            )
            continue
        for key, name in target.checkpoints_named:
            text = why_not_shown(view, name) if view else ""
            if text:
                yield place, key, text
    if targets and all(target.watch_only for _, target in targets):
        yield targets[0][0], "watch_only", "every target is watch_only; at least one must decide"
    for index, (place, target) in enumerate(targets):
        for earlier, other in targets[:index]:
            if (target.measure, target.when) == (other.measure, other.when):
                yield place, "measure", f'asks the same as target {earlier + 1} ("{other.title}")'
            elif target.title.lower() == other.title.lower():
                yield place, "name", f'"{target.title}" is the name of target {earlier + 1} already'
