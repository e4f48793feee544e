"""The plan a coach writes for one student."""

from collections.abc import Iterator, Sequence
from typing import Annotated

from pydantic import BaseModel, ConfigDict, Field, model_validator

from baycue.measures.catalogue import measure_named
from baycue.plan import fields
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

    @property
    def horizontal_fov_deg(self) -> float:
        """Horizontal field of view, degrees."""
        return self.field_of_view.value


class Plan(BaseModel):
    """A student's facts and targets, checked."""

    model_config = ConfigDict(frozen=True, extra="forbid")

    student: fields.ShortText
    coach: fields.ShortText | None = None
    notes: fields.Text | None = None
    handedness: fields.Side
    stature: fields.Stature
    view: fields.ViewName
    camera: PlanCamera = Field(default_factory=PlanCamera)
    targets: Annotated[tuple[Target, ...], Field(min_length=1, max_length=MOST_TARGETS)]

    @property
    def stature_m(self) -> float:
        """Body height, metres."""
        return self.stature.value

    @model_validator(mode="after")
    def _targets_fit_together(self) -> "Plan":
        faults = list(faults_across(self.view, list(enumerate(self.targets))))
        if faults:
            raise ValueError(faults[0][2])
        return self


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
    if targets and all(target.watch_only for _, target in targets):
        yield targets[0][0], "watch_only", "every target is watch_only; at least one must decide"
    for index, (place, target) in enumerate(targets):
        for earlier, other in targets[:index]:
            if (target.measure, target.when) == (other.measure, other.when):
                yield place, "measure", f'asks the same as target {earlier + 1} ("{other.title}")'
            elif target.title.lower() == other.title.lower():
                yield place, "name", f'"{target.title}" is the name of target {earlier + 1} already'
