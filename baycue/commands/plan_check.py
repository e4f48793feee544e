"""Check plan files: what is wrong in them, and what is finer than the bay can tell."""

from collections.abc import Sequence
from pathlib import Path

from rich.console import Console

from baycue.errors import PlanError
from baycue.measures.figures import Figure, read_figures
from baycue.plan.cautions import cautions
from baycue.plan.document import Document, Fault
from baycue.plan.file import plan_text
from baycue.plan.load import fault_line, parse_with_lines
from baycue.plan.plan import Plan
from baycue.plan.resolution import resolution_of
from baycue.plan.target import Target
from baycue.plan.units import say


def run_plan_check(files: Sequence[Path], fps: int, console: Console) -> list[Fault]:
    """Print on every file; returns all cautions, and raises PlanError if any file is wrong."""
    wrong, found = [], []
    figures = read_figures().figures
    for path in files:
        try:
            plan, document = parse_with_lines(plan_text(path), str(path))
        except PlanError as error:
            wrong.append(str(error))
        else:
            found += _tell(path, plan, document, fps, figures, console)
    if wrong:
        raise PlanError("\n".join(wrong))
    return found


def _tell(
    path: Path,
    plan: Plan,
    document: Document,
    fps: int,
    figures: Sequence[Figure],
    console: Console,
) -> list[Fault]:
    warned = cautions(plan, document, fps, figures)
    also = f", {len(warned)} warning{'s' if len(warned) > 1 else ''}" if warned else ""
    _say(console, f"{path}: right{also}. {plan.student}, {plan.view.value}, {fps} frames a second:")
    for target in plan.targets:
        _say(console, f"  {target.title}: {_how_well(target, plan, fps, figures)}")
    for caution in warned:
        _say(console, f"warning: {fault_line(str(path), caution)}")
    return warned


def _how_well(target: Target, plan: Plan, fps: int, figures: Sequence[Figure]) -> str:
    seen = resolution_of(target, plan, fps, figures)
    if seen is None:
        return "error not measured yet"
    quantity = target.bound.low or target.bound.high
    assert quantity is not None, "a target has a bound"
    rate = f"{seen.figure.fps} frames a second" if seen.figure.fps else "all frame rates"
    where = "" if seen.exact else f", measured {seen.figure.asked}"
    return (
        f"off by {say(seen.error, quantity.written)} RMS over {seen.figure.swings} synthetic "
        f"swings, {rate}, scale by {seen.figure.scale}{where}"
    )


def _say(console: Console, line: str) -> None:
    console.print(line, soft_wrap=True, highlight=False, markup=False)
