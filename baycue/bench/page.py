"""One page of HTML that needs nothing beside it: the tables and, with matplotlib, plots."""

import base64
import html
import io
from collections.abc import Sequence

from rich.console import Console

from baycue.bench.figures import Figures
from baycue.bench.record import Record
from baycue.bench.table import CAUTION, bench_tables

_STYLE = """
body { font: 16px/1.5 sans-serif; margin: 2em auto; max-width: 84em; color: #1a1a1a; }
pre { font-size: 12px; line-height: 1.3; overflow-x: auto; }
figure { display: inline-block; margin: 0 1em 1em 0; } figcaption { font-weight: bold; }
img { max-width: 100%; }
"""


def page(figures: Figures, records: Sequence[Record], made: str) -> str:
    """The page; ``made`` says by which command, when and on what machine."""
    pictures = "\n".join(_figure(caption, png) for caption, png in _plots(records).items())
    return (
        '<!doctype html>\n<html lang="en"><head><meta charset="utf-8">'
        f"<title>Bench</title><style>{_STYLE}</style></head><body>\n"
        f"<h1>How right are we?</h1>\n<p>{html.escape(made)}. {CAUTION}</p>\n"
        f"{pictures}\n<pre>{html.escape(_text(figures))}</pre>\n</body></html>\n"
    )


def _plots(records: Sequence[Record]) -> dict[str, bytes]:
    try:
        from baycue.bench.plots import plots

        return plots(records)
    except ImportError:
        return {}


def _figure(caption: str, png: bytes) -> str:
    said, data = html.escape(caption), base64.b64encode(png).decode()
    picture = f'<img alt="{said}" src="data:image/png;base64,{data}">'
    return f"<figure><figcaption>{said}</figcaption>{picture}</figure>"


def _text(figures: Figures) -> str:
    console = Console(width=150, file=io.StringIO(), force_terminal=False, record=True)
    console.print(bench_tables(figures), highlight=False)
    return console.export_text()
