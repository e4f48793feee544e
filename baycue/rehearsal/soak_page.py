"""One page of HTML that needs nothing beside it: a soak's tables and plots."""

import base64
import html
import io

from rich.console import Console

from baycue.rehearsal.slope import slope
from baycue.rehearsal.soak_record import SoakRecord
from baycue.rehearsal.soak_series import Series, series, warm_up_s
from baycue.rehearsal.soak_table import soak_tables

_STYLE = """
body { font: 16px/1.5 sans-serif; margin: 2em auto; max-width: 84em; color: #1a1a1a; }
pre { font-size: 12px; line-height: 1.3; overflow-x: auto; }
figure { display: inline-block; margin: 0 1em 1em 0; } figcaption { font-weight: bold; }
img { max-width: 100%; }
"""
_BLUE, _ORANGE, _SHADE = "#2060a0", "#c05000", "#eeeeee"


def soak_page(record: SoakRecord) -> str:
    """The page; matplotlib draws."""
    facts, from_s = record.facts, warm_up_s(record.lasted_s)
    figures = "\n".join(_figure(each, from_s) for each in series(record) if each.values)
    told = (
        f"{facts.command}; begun {facts.begun}; {facts.machine}. Grey: the time to settle, left "
        "out of the slopes. Orange: the line by least squares. The golfer is rendered, and the "
        "camera a process of this machine; a real camera was not there."
    )
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f"<title>Soak</title><style>{_STYLE}</style></head><body>\n"
        f"<h1>Does anything grow?</h1>\n<p>{html.escape(told)}</p>\n"
        f"<pre>{html.escape(_text(record))}</pre>\n{figures}\n</body></html>\n"
    )


def _text(record: SoakRecord) -> str:
    console = Console(width=150, file=io.StringIO(), force_terminal=False, record=True)
    console.print(*soak_tables(record), sep="\n", highlight=False)
    return console.export_text()


def _figure(each: Series, from_s: float) -> str:
    said = html.escape(f"{each.name}: {each.since(from_s).verdict}")
    data = base64.b64encode(_png(each, from_s)).decode()
    picture = f'<img alt="{said}" src="data:image/png;base64,{data}">'
    return f"<figure><figcaption>{said}</figcaption>{picture}</figure>"


def _png(each: Series, from_s: float) -> bytes:
    from matplotlib.figure import Figure

    figure = Figure(figsize=(6.0, 3.0), layout="constrained")
    axes = figure.add_subplot()
    axes.grid(color="#dddddd")
    axes.axvspan(0, from_s / 60, color=_SHADE)
    axes.plot([t / 60 for t in each.at_s], each.values, ".", markersize=3, color=_BLUE)
    settled = each.since(from_s)
    if len(settled.values) > 2:
        per_h = slope(settled.at_s, settled.values).per_h
        middle_s = sum(settled.at_s) / len(settled.at_s)
        middle = sum(settled.values) / len(settled.values)
        ends_s = (settled.at_s[0], settled.at_s[-1])
        line = [middle + per_h * (t - middle_s) / 3600 for t in ends_s]
        axes.plot([t / 60 for t in ends_s], line, color=_ORANGE)
    axes.set(xlabel="minutes", ylabel=each.unit)
    axes.margins(y=0.3)
    file = io.BytesIO()
    figure.savefig(file, format="png", dpi=90)
    return file.getvalue()
