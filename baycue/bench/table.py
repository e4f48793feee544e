"""The bench's figures as tables for the terminal."""

from rich.console import Group, RenderableType
from rich.table import Table

from baycue.bench.coach import HEAD, KNEE
from baycue.bench.events import PUBLISHED_MEAN
from baycue.bench.figures import MEASURES, QUANTITIES, TIMES, Figures, Quantity
from baycue.bench.goals import Goal, goals
from baycue.bench.slices import BY_FPS, EVERY
from baycue.bench.statistics import Errors

CAUTION = "Synthetic swings of invented golfers: real ones were not measured."


def bench_tables(figures: Figures) -> RenderableType:
    """Everything, goals last."""
    title = f"{figures.swings} swings of seed {figures.seed}; {100 * figures.found_share:.1f} %"
    return Group(
        f"{title} found. {CAUTION}",
        *(f"swing {number} not scored: {why}" for number, why in figures.refused.items()),
        errors_table(figures),
        slices_table(figures),
        events_line(figures),
        verdict_table(figures),
        goal_table(goals(figures)),
    )


def errors_table(figures: Figures) -> Table:
    """Errors of every quantity, by frame rate too, and how often its stated intervals hold."""
    table = Table("error, stated less true", title="Errors of all swings and by frame rate")
    rates = [s.name for s in BY_FPS if s.name in figures.errors]
    said = ", ".join(name.removesuffix(" fps") for name in rates)
    for head in ("missing", "bias", "RMS", "median", "95 %", f"RMS at {said} fps"):
        table.add_column(head, justify="right")
    table.add_column(f"95 % at {said} fps", justify="right")
    table.add_column("true within 68, 95 %", justify="right")
    for quantity in QUANTITIES:
        errors = figures.errors[EVERY.name][quantity.name]
        by_rate = [figures.errors[name][quantity.name] for name in rates]
        covered = figures.coverage[quantity.name]
        table.add_row(
            f"{quantity.name}, {quantity.unit}",
            str(errors.missing),
            *(_said(quantity, x) for x in (errors.bias, errors.rms, errors.median, errors.p95)),
            ", ".join(_said(quantity, e.rms) for e in by_rate),
            ", ".join(_said(quantity, e.p95) for e in by_rate),
            f"{100 * covered.within_68:.0f}, {100 * covered.within_95:.0f}",
        )
    return table


def slices_table(figures: Figures) -> Table:
    """The errors that goals are set for, over every slice."""
    table = Table("slice", title="By slice")
    p6, knee, head = (q for q in (*TIMES, *MEASURES) if q.name in ("P6", KNEE, HEAD))
    for heading in (
        "swings",
        "not found",
        "P6 median, 95 %, ms",
        "knee bias, RMS, mm",
        "head bias, RMS, mm",
    ):
        table.add_column(heading, justify="right")
    for name, errors in figures.errors.items():
        found, at_p6 = errors["impact"], errors[p6.name]
        table.add_row(
            name,
            str(found.count + found.missing),
            str(found.missing),
            f"{_said(p6, at_p6.median)}, {_said(p6, at_p6.p95)}",
            *(_bias_rms(q, errors[q.name]) for q in (knee, head)),
        )
    return table


def _bias_rms(quantity: Quantity, errors: Errors) -> str:
    return f"{_said(quantity, errors.bias)}, {_said(quantity, errors.rms)}"


def events_line(figures: Figures) -> str:
    """Ours beside the published mean, saying that the two are of different swings."""
    each = ", ".join(f"{name} {100 * share:.1f}" for name, share in figures.events.each.items())
    return (
        f"Events within max(round(n/30), 1) frames, n from address to impact: mean "
        f"{100 * figures.events.mean:.1f} % over seven events ({each}), on synthetic swings seen "
        f"face-on; McNally et al. 2019 (arXiv 1903.06528): {100 * PUBLISHED_MEAN:.1f} % over "
        "eight events of real swings seen from many sides."
    )


def verdict_table(figures: Figures) -> Table:
    """How many answers were right, and how many were not given."""
    table = Table("verdicts on", "answers", "called", "of them right", "too close, of the clear")
    for name, verdicts in figures.verdicts.items():
        clear = f"{100 * verdicts.clear_too_close_share:.1f} %" if verdicts.clear else ""
        table.add_row(
            name,
            str(verdicts.answers),
            str(verdicts.called),
            f"{100 * verdicts.right_share:.2f} %",
            clear,
        )
    return table


def goal_table(reached: tuple[Goal, ...]) -> Table:
    """Each goal with what was reached, in words as well as in colour."""
    met = sum(goal.met for goal in reached)
    table = Table("goal", "wanted", "reached", "", title=f"Goals: {met} of {len(reached)} met")
    for goal in reached:
        said = "met" if goal.met else "MISSED"
        table.add_row(goal.name, wanted(goal), f"{goal.reached:.2f} {goal.unit}", said)
    return table


def wanted(goal: Goal) -> str:
    """The goal's range in words."""
    if goal.low == float("-inf"):
        return f"at most {goal.high:g} {goal.unit}"
    if goal.high == float("inf"):
        return f"at least {goal.low:g} {goal.unit}"
    return f"{goal.low:g} to {goal.high:g} {goal.unit}"


def _said(quantity: Quantity, figure: float) -> str:
    return f"{figure:.{1 if quantity.unit in ('ms', 'mm') else 2}f}"
