"""The bench of every measure: ask all of them of random swings and say how right they are."""

import json
import subprocess
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from datetime import date
from functools import partial
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.bench.measure_figures import measure_figures
from baycue.bench.measure_take import MeasuredSwing, from_line, measure_take, to_line
from baycue.bench.population import Draw, draw
from baycue.bench.results import add_line, parsed_lines
from baycue.bench.run import taken_in_turn
from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.errors import BaycueError, OtherRunError
from baycue.measures.catalogue import measure_named
from baycue.measures.figures import Figure, Figures, write_figures
from baycue.measures.measurement import Unit
from baycue.plan.stance import View

FIGURES_FILE = Path(__file__).parents[1] / "measures" / "figures.yaml"
CAUTION = "Synthetic swings of invented golfers: real ones were not measured."


@dataclass(frozen=True, slots=True)
class MeasuresRequest:
    """How many swings of which seed from each side, where results and clips are kept."""

    swings: int
    behind: int
    seed: int
    out: Path
    workers: int = 1
    clips: Path | None = None
    write_figures: bool = False

    def draws(self) -> list[Draw]:
        """The population, face-on and down the line."""
        front = [draw(self.seed, n) for n in range(self.swings)]
        return front + [draw(self.seed, n, view=View.DOWN_THE_LINE) for n in range(self.behind)]

    @property
    def results(self) -> Path:
        """Where answers are kept."""
        return self.out / "measures.jsonl"


def run_bench_measures(request: MeasuresRequest, console: Console) -> tuple[Figure, ...]:
    """Take what is missing, then tell; the package's figures are written only if asked."""
    refuse_unusable(request.out)
    _take_missing(request, console)
    swings = _wanted(request)
    if not swings:
        raise BaycueError("bench-measures: no swings were asked for")
    figures = measure_figures(swings, request.seed)
    console.print(measures_table(figures), highlight=False)
    made = _made(request, swings)
    file = request.out / "measures.json"
    document = {"made": made, "figures": [_plain(figure) for figure in figures]}
    file.write_text(json.dumps(document, indent=1), encoding="utf-8")
    console.print(f"Figures written to {file}", soft_wrap=True)
    if request.write_figures:
        write_figures(FIGURES_FILE, Figures(made, figures))
        console.print(f"and to {FIGURES_FILE}", soft_wrap=True)
    return figures


def measures_table(figures: Sequence[Figure]) -> Table:
    """Every question over all frame rates."""
    table = Table("measure", title="Every measure, all swings", caption=CAUTION)
    for head in ("swings", "missing", "RMS", "bias", "true spread", "within 68, 95 %"):
        table.add_column(head, justify="right")
    table.add_column("called, of them right", justify="right")
    table.add_column("")
    for figure in (f for f in figures if f.fps is None):
        table.add_row(*_row(figure))
    return table


def _row(figure: Figure) -> tuple[str, ...]:
    size, sign = _in(figure)
    return (
        f"{figure.measure} {figure.asked}".strip() + f" ({figure.view.value})",
        str(figure.swings),
        str(figure.missing),
        f"{size * figure.rms:.3g} {sign}",
        f"{size * figure.bias:+.2g}",
        f"{size * figure.true_spread:.3g}",
        f"{100 * figure.one_sigma:.0f}, {100 * figure.two_sigmas:.0f}",
        f"{100 * figure.called:.0f}, {100 * figure.called_right:.1f} %",
        "not to be trusted" if figure.doubt else "",
    )


def _in(figure: Figure) -> tuple[float, str]:
    measure = measure_named(figure.measure)
    unit = measure.unit if measure else Unit.RATIO
    shown = {Unit.METRE: (1e3, "mm"), Unit.SECOND: (1e3, "ms"), Unit.DEGREE: (1.0, "deg")}
    return shown.get(unit, (1.0, ""))


def _plain(figure: Figure) -> dict[str, object]:
    return {**asdict(figure), "view": figure.view.value, "doubt": figure.doubt}


def _take_missing(request: MeasuresRequest, console: Console) -> None:
    done = {_key(swing.draw) for swing in _kept(request)}
    missing = [one for one in request.draws() if _key(one) not in done]
    take = partial(measure_take, clips=request.clips)
    with progress_bar(console) as bar:
        task = bar.add_task("swings", total=len(missing))
        for _, swing in taken_in_turn(missing, request.workers, take):
            add_line(request.results, to_line(swing))
            bar.advance(task)


def _wanted(request: MeasuresRequest) -> list[MeasuredSwing]:
    wanted = {_key(one) for one in request.draws()}
    kept = [swing for swing in _kept(request) if _key(swing.draw) in wanted]
    return sorted(kept, key=lambda swing: _key(swing.draw))


def _kept(request: MeasuresRequest) -> tuple[MeasuredSwing, ...]:
    """Those that are there; OutputError if they are of another seed."""
    kept = parsed_lines(request.results, from_line)
    other = next((s.draw.seed for s in kept if s.draw.seed != request.seed), None)
    if other is not None:
        raise OtherRunError(
            f"{request.results}: holds swings of seed {other}, not {request.seed}; "
            "name another --out"
        )
    return kept


def _key(drawn: Draw) -> tuple[str, int]:
    return drawn.camera.view.value, drawn.number


def _made(request: MeasuresRequest, swings: Sequence[MeasuredSwing]) -> dict[str, str]:
    refused = sum(swing.refused is not None for swing in swings)
    return {
        "by": f"baycue bench-measures --swings {request.swings} --behind {request.behind} "
        f"--seed {request.seed}",
        "date": date.today().isoformat(),
        "code": _code_version(),
        "swings": f"{request.swings} face-on, {request.behind} down-the-line; {refused} not scored",
        "fps": "30, 60 and 120 mixed where fps is null",
        "what": "synthetic golfers; no real golfer was measured",
    }


def _code_version() -> str:
    """The commit that the code is of; "unknown" away from a checkout."""
    asked = ["git", "-C", str(FIGURES_FILE.parent), "rev-parse", "--short", "HEAD"]
    try:
        return subprocess.run(asked, capture_output=True, text=True, check=True).stdout.strip()
    except (OSError, subprocess.CalledProcessError):
        return "unknown"
