"""Which measures a plan may name, and what each of them means."""

from rich.console import Console
from rich.table import Table

from baycue.errors import BaycueError
from baycue.measures.catalogue import measure_named, measures
from baycue.measures.figures import say_figure
from baycue.measures.measure import Measure, Zero
from baycue.measures.measurement import Unit
from baycue.plan.words import refuse

_UNIT = {
    Unit.METRE: "length: cm, mm, m, in or ft",
    Unit.DEGREE: "angle: deg",
    Unit.SECOND: "time: ms or s",
    Unit.RATIO: "a bare number",
}


def run_measures(name: str | None, console: Console) -> None:
    """All in a table, or all about the one named; BaycueError for a name that is none."""
    if name is None:
        console.print(_listed(measures()))
        return
    measure = measure_named(" ".join(name.lower().split()))
    if measure is None:
        raise BaycueError(str(refuse(name, "measure", (m.name for m in measures()))))
    console.print(_told(measure))


def _listed(found: tuple[Measure, ...]) -> Table:
    table = Table("measure", "positive means", "views", box=None, padding=(0, 2, 0, 0))
    for measure in found:
        table.add_row(measure.name, measure.positive, _views(measure))
    return table


def _told(measure: Measure) -> Table:
    table = Table(show_header=False, box=None, padding=(0, 2, 0, 0))
    table.add_row(measure.name, measure.definition)
    table.add_row("positive means", measure.positive)
    table.add_row("unit", _UNIT[measure.unit])
    table.add_row("seen", _views(measure))
    table.add_row("taken", _moment(measure))
    for view in sorted(measure.views, key=lambda v: v.value):
        table.add_row(f"error, {view.value}", say_figure(measure.name, measure.unit, view))
    if measure.doubt:
        table.add_row("not to be trusted", f"from one camera: {measure.doubt}")
    return table


def _views(measure: Measure) -> str:
    return ", ".join(sorted(v.value for v in measure.views))


def _moment(measure: Measure) -> str:
    if measure.whole is not None:
        return "over the whole swing"
    since = ", counted from address" if measure.zero is Zero.ADDRESS else ""
    return f"at a checkpoint, as a change, or largest, least or furthest over a span{since}"
