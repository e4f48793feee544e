"""Every measure that a plan may name."""

from rich.console import Console
from rich.table import Table

from baycue.measures.catalogue import measures
from baycue.measures.figures import doubt_of, say_figure
from baycue.measures.measure import Measure, Zero
from baycue.measures.measurement import Unit
from baycue.plan.stance import View
from baycue.plan.target import USUAL_BAND
from baycue.plan.units import signs


def run_plan_measures(view: View | None, console: Console) -> None:
    """Print them in order of name; ``view``: only those that it shows."""
    shown = [m for m in measures() if view in (None, *m.views)]
    for measure in shown:
        console.print(_told(measure, view))
        console.print()
    console.print(
        'Errors are the truth bench\'s, on synthetic golfers. When: "at", "from" and "to", or '
        '"largest_between", "least_between", "furthest_between"; a measure of the whole swing '
        f"has none. A value within {USUAL_BAND:g} sigmas of its bound, or the target's own "
        '"band", is too close to call.',
        highlight=False,
    )


def _told(measure: Measure, view: View | None) -> Table:
    table = Table(box=None, pad_edge=False, show_header=False, padding=(0, 2, 0, 0))
    table.add_column(no_wrap=True, style="dim")
    table.add_column()
    table.add_row("measure", measure.name)
    table.add_row("is", measure.definition)
    table.add_row("positive", measure.positive)
    table.add_row("unit", _unit(measure.unit))
    table.add_row("when", _when(measure))
    table.add_row("seen", ", ".join(sorted(v.value for v in measure.views)))
    table.add_row("error", say_figure(measure.name, measure.unit, view))
    if doubt := measure.doubt or doubt_of(measure.name, view):
        table.add_row("doubt", doubt)
    return table


def _when(measure: Measure) -> str:
    if measure.whole is not None:
        return "the whole swing"
    counted = ", counted from address" if measure.zero is Zero.ADDRESS else ""
    return f"at a checkpoint, as a change, or largest, least or furthest over a span{counted}"


def _unit(unit: Unit) -> str:
    return "none, a bare number" if unit is Unit.RATIO else signs(unit)
