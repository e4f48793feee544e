"""What is right in a plan and yet finer than the bay can tell, with what would help."""

from collections.abc import Iterator, Sequence

from baycue.measures.catalogue import measure_named
from baycue.measures.figures import Figure, doubt_of
from baycue.measures.measurement import Unit
from baycue.plan.camera_facts import ScaleBy
from baycue.plan.document import Document, Fault, Path, dotted
from baycue.plan.plan import Plan
from baycue.plan.resolution import (
    Resolution,
    conditions_apart,
    half_width_for_half,
    passes_in_the_middle,
    resolution_of,
)
from baycue.plan.target import Target
from baycue.plan.units import Quantity, WrittenUnit, say

_FAST_FPS = 60
_MOST_TOLD = 2


def cautions(plan: Plan, document: Document, fps: int, figures: Sequence[Figure]) -> list[Fault]:
    """One for each thing to think over, by line.  ``fps``: the camera's frames a second."""
    found = []
    for path, target in _targets(plan):
        for key, text in _of_target(target, plan, fps, figures):
            place = (*path, key)
            found.append(Fault(document.line_of(place), dotted(place), text))
    return sorted(set(found))


def _targets(plan: Plan) -> Iterator[tuple[Path, Target]]:
    """The plan's own targets and those of its drills, each with its path in the file."""
    for number, target in enumerate(plan.targets):
        yield ("targets", number), target
    for block, row in enumerate(plan.practice.blocks if plan.practice else ()):
        for drill, done in enumerate(row.drills):
            for number, target in enumerate(done.targets or ()):
                path = ("practice", "blocks", block, "drills", drill, "targets", number)
                yield path, target


def _of_target(
    target: Target, plan: Plan, fps: int, figures: Sequence[Figure]
) -> Iterator[tuple[str, str]]:
    measure = measure_named(target.measure)
    doubt = (measure.doubt or doubt_of(measure.name, plan.view)) if measure else ""
    if measure and doubt:
        only = (
            "" if target.watch_only else "; better watch_only: true, and looked at on the picture"
        )
        yield "measure", f'"{measure.name}" is not to be trusted: {doubt}{only}'
    seen = resolution_of(target, plan, fps, figures)
    if seen is None:
        return
    for key, text in _too_fine(target, seen):
        yield key, f"{text}; {_help(plan, seen, fps, _unit(target))}"


def _too_fine(target: Target, seen: Resolution) -> Iterator[tuple[str, str]]:
    error = say(seen.error, _unit(target))
    moment = f", {seen.figure.asked}" if seen.figure.asked else ""
    off = f"the bay is off by {error} (RMS{moment})"
    tolerance = target.tolerance
    if tolerance and 0 < tolerance.value < seen.error:
        yield "tolerance", f"{_said(tolerance)} is finer than the bay can tell: {off}"
    if target.between:
        yield from _narrow(target, target.between, seen.error, off)
    for key in ("at_least", "at_most"):
        bound: Quantity | None = getattr(target, key)
        if bound and bound.written is not WrittenUnit.RATIO and 0 < abs(bound.value) < seen.error:
            yield key, f"{_said(bound)} can hardly be told from 0: {off}"


def _narrow(
    target: Target, between: tuple[Quantity, Quantity], error: float, off: str
) -> Iterator[tuple[str, str]]:
    tolerated = target.tolerance.value if target.tolerance else 0.0
    half_width = (between[1].value - between[0].value) / 2 + tolerated
    share = passes_in_the_middle(half_width, target.band, error)
    if share >= 0.5:
        return
    wide = say(2 * half_width_for_half(target.band, error), _unit(target))
    often = f"in {100 * share:.0f} of 100 cases" if share else "never"
    yield (
        "between",
        f"the range is finer than the bay can tell: {off}, so that a swing in its very middle is "
        f"called a pass {often}; {wide} from end to end would make it every other time",
    )


def _help(plan: Plan, seen: Resolution, fps: int, unit: WrittenUnit) -> str:
    """What the bench found better, and what it did not look at."""
    told = [
        f"{' and '.join(conditions_apart(seen.figure, better))} ({say(better.rms, unit)})"
        for better in seen.better[:_MOST_TOLD]
    ]
    if told:
        return f"would help: a wider bound; {'; '.join(told)}"
    untried = ["a shorter shutter"]
    if fps < _FAST_FPS:
        untried.insert(0, f"{_FAST_FPS} frames a second")
    if unit.held is Unit.METRE and plan.scale.by is ScaleBy.STATURE:
        untried.append("scale by stick or board")
    return f"would help: a wider bound; perhaps, not measured apart: {', '.join(untried)}"


def _unit(target: Target) -> WrittenUnit:
    bound = target.bound
    quantity = bound.low or bound.high
    assert quantity is not None, "a target has a bound"
    return quantity.written


def _said(quantity: Quantity) -> str:
    return say(quantity.value, quantity.written)
