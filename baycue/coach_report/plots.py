"""The plots as SVG that goes into the page; matplotlib is imported only here."""

import io
import re
from collections.abc import Iterable
from html import escape
from typing import TYPE_CHECKING, Any

from baycue.coach_report.figures import Shown, TargetFigures
from baycue.coach_report.palette import placeholder, with_variables
from baycue.plan.target import Target
from baycue.plan.units import WrittenUnit, in_unit
from baycue.verdict.verdict import Outcome

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

_STYLE: Any = {
    "svg.fonttype": "none",
    "svg.hashsalt": "baycue",
    "font.size": 11,
    "text.color": placeholder("ink"),
    "axes.labelcolor": placeholder("ink"),
    "axes.edgecolor": placeholder("line"),
    "xtick.color": placeholder("line"),
    "ytick.color": placeholder("line"),
    "xtick.labelcolor": placeholder("quiet"),
    "ytick.labelcolor": placeholder("quiet"),
    "axes.spines.top": False,
    "axes.spines.right": False,
}
_MARKS = {
    Outcome.PASS: ("o", "passed", "pass"),
    Outcome.FAIL: ("x", "failed", "fail"),
    Outcome.TOO_CLOSE: ("s", "close", "too close to call"),
}
_WIDTH_IN, _HEIGHT_IN = 4.6, 2.7


def trend_plot(figures: TargetFigures, name: str, described: str) -> str:
    """The pass rate of every session with its interval."""
    import matplotlib as mpl

    with mpl.rc_context(_STYLE):
        figure, axes = _axes()
        told = [s for s in figures.sessions if s.whole.pass_rate is not None]
        for session in told:
            whole = session.whole
            rate, low, high = (100 * (v or 0.0) for v in (whole.pass_rate, whole.low, whole.high))
            axes.plot([session.number] * 2, [low, high], color=placeholder("line"), linewidth=3)
            axes.plot([session.number], [rate], "o", color=placeholder("passed"), markersize=8)
        axes.set(ylim=(-3, 103), xlabel="session", ylabel="passed, %")
        axes.set_xticks([s.number for s in told])
        return _svg(figure, name, described)


def value_plot(figures: TargetFigures, name: str, described: str) -> str:
    """Every value in the order of the swings, with the bound, and how they spread beside it."""
    import matplotlib as mpl

    with mpl.rc_context(_STYLE):
        figure, axes = _axes()
        unit = _unit_of(figures.target)
        measured = [s for s in figures.shown if s.answer.value is not None]
        for outcome, (mark, colour, label) in _MARKS.items():
            points = [
                (place, in_unit(s.answer.value, unit))
                for place, s in enumerate(measured, 1)
                if s.answer.outcome is outcome and s.answer.value is not None
            ]
            if points:
                fill = "none" if mark == "s" else placeholder(colour)
                axes.plot(
                    *zip(*points, strict=True),
                    marker=mark,
                    color=placeholder(colour),
                    markerfacecolor=fill,
                    label=label,
                    markersize=6,
                    markeredgewidth=2,
                    linestyle="",
                )
        _bounds(axes, figures.target, unit)
        _sessions(axes, measured)
        axes.set(xlabel="swing", ylabel=f"measured, {unit.sign}".rstrip(", "))
        axes.legend(loc="lower center", bbox_to_anchor=(0.5, 1.0), ncols=3, frameon=False,
                    handletextpad=0.2, columnspacing=1.0)  # fmt: skip
        return _svg(figure, name, described)


def spread_plot(figures: TargetFigures, name: str, described: str) -> str:
    """How often each value was measured, against the bound."""
    import matplotlib as mpl

    with mpl.rc_context(_STYLE):
        figure, axes = _axes()
        unit = _unit_of(figures.target)
        values = [
            in_unit(s.answer.value, unit) for s in figures.shown if s.answer.value is not None
        ]
        axes.hist(
            values,
            bins=max(5, min(20, round(len(values) ** 0.5) + 3)),
            facecolor="none",
            edgecolor=placeholder("passed"),
            linewidth=2,
        )
        _bounds(axes, figures.target, unit, upright=True)
        axes.locator_params(axis="y", integer=True)
        axes.set(xlabel=f"measured, {unit.sign}".rstrip(", "), ylabel="swings")
        return _svg(figure, name, described)


def _axes() -> "tuple[Figure, Axes]":
    from matplotlib.figure import Figure

    figure = Figure(figsize=(_WIDTH_IN, _HEIGHT_IN), layout="constrained")
    figure.patch.set_alpha(0)
    axes = figure.add_subplot()
    axes.patch.set_alpha(0)
    return figure, axes


def _unit_of(target: Target) -> WrittenUnit:
    bound = target.bound.low or target.bound.high
    assert bound is not None, "every target has a bound"
    return bound.written


def _bounds(axes: "Axes", target: Target, unit: WrittenUnit, upright: bool = False) -> None:
    """The bound as a dashed line, so that it is no axis."""
    for end in (target.bound.low, target.bound.high):
        if end is None:
            continue
        draw = axes.axvline if upright else axes.axhline
        draw(in_unit(end.value, unit), color=placeholder("bound"), linestyle="--", linewidth=2)


def _sessions(axes: "Axes", measured: Iterable[Shown]) -> None:
    """A thin line where a session begins."""
    last = None
    for place, shown in enumerate(measured, 1):
        if last is not None and shown.session != last:
            axes.axvline(place - 0.5, color=placeholder("line"), linewidth=1)
        last = shown.session


def _svg(figure: "Figure", name: str, described: str) -> str:
    """The figure as an SVG element with a description; its ids are this plot's own."""
    file = io.StringIO()
    figure.savefig(file, format="svg", metadata={"Date": None, "Creator": None})
    svg = file.getvalue()
    svg = re.sub(r"<metadata>.*?</metadata>", "", svg[svg.index("<svg") :], flags=re.DOTALL)
    svg = re.sub(r'(id="|href="#|url\(#)', rf"\g<1>{name}-", svg)
    svg = re.sub(r' (width|height)="[\d.]+pt"', "", svg, count=2)
    svg = re.sub(r' xmlns(:xlink)?="[^"]*"', "", svg)
    svg = svg.replace("xlink:href", "href").replace(
        "<svg ", f'<svg role="img" aria-labelledby="{name}-said" ', 1
    )
    head = svg.index(">") + 1
    return with_variables(
        f'{svg[:head]}<title id="{name}-said">{escape(described)}</title>{svg[head:]}'
    )
