"""The bench: score a random population of synthetic swings and say how right the answers are."""

import json
import os
import platform
import sys
from collections.abc import Mapping, Sequence
from dataclasses import asdict, dataclass, field
from datetime import date
from functools import partial
from pathlib import Path

from rich.console import Console

from baycue.bench.figures import Figures, figures_of
from baycue.bench.floors import FLOORS, SHORT_SEED, SHORT_SWINGS, Floor, fallen
from baycue.bench.goals import goals
from baycue.bench.page import page
from baycue.bench.population import FPS_SHARES, SHORT_FPS_SHARES, Draw, draw
from baycue.bench.record import Record
from baycue.bench.results import missing_numbers, read_results
from baycue.bench.run import run
from baycue.bench.table import bench_tables
from baycue.bench.take import take
from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.errors import ShortfallError


@dataclass(frozen=True, slots=True)
class BenchRequest:
    """How many swings of which seed, where results are kept, in how many processes."""

    swings: int
    seed: int
    out: Path
    workers: int
    label: str = "bench"
    fps_shares: Mapping[float, float] = field(default_factory=lambda: FPS_SHARES)
    floors: tuple[Floor, ...] = ()
    clips: Path | None = None

    def draws(self) -> list[Draw]:
        """The population."""
        return [draw(self.seed, number, self.fps_shares) for number in range(self.swings)]

    def file(self, ending: str) -> Path:
        """Where something of this bench is kept."""
        return self.out / f"{self.label}.{ending}"


def short_request(out: Path, workers: int) -> BenchRequest:
    """Few swings at 30 frames a second, with floors: for continuous integration."""
    return BenchRequest(
        SHORT_SWINGS, SHORT_SEED, out, workers, "short", SHORT_FPS_SHARES, floors=FLOORS
    )


def run_bench(request: BenchRequest, console: Console) -> Figures:
    """Take what is missing, then tell; raises BaycueError if a floor is broken."""
    refuse_unusable(request.out)
    results = request.file("jsonl")
    _take_missing(request, results, console)
    records = _wanted(read_results(results, request.seed), request.swings)
    figures = figures_of(records)
    console.print(bench_tables(figures), highlight=False)
    _write(figures, records, request, console)
    refuse_fallen(figures, request.floors)
    return figures


def _take_missing(request: BenchRequest, results: Path, console: Console) -> None:
    numbers = missing_numbers(read_results(results, request.seed), request.swings)
    wanted = [d for d in request.draws() if d.number in numbers]
    with progress_bar(console) as bar:
        task = bar.add_task("swings", total=request.swings)
        bar.update(task, completed=request.swings - len(wanted))
        for _ in run(wanted, results, request.workers, partial(take, clips=request.clips)):
            bar.advance(task)


def _wanted(records: Sequence[Record], swings: int) -> list[Record]:
    kept = [record for record in records if record.draw.number < swings]
    return sorted(kept, key=lambda record: record.draw.number)


def _write(
    figures: Figures, records: Sequence[Record], request: BenchRequest, console: Console
) -> None:
    """Figures and page follow from the results, so they are written anew each time."""
    made = _made(request)
    reached = [{**asdict(goal), "met": goal.met} for goal in goals(figures)]
    document = {"made": made, "goals": reached, **asdict(figures)}
    json_file, html_file = request.file("json"), request.file("html")
    json_file.write_text(json.dumps(document, indent=1), encoding="utf-8")
    html_file.write_text(page(figures, records, made), encoding="utf-8")
    console.print(f"Figures written to {json_file} and {html_file}", soft_wrap=True)


def _made(request: BenchRequest) -> str:
    machine = f"{os.cpu_count()} cores, {platform.machine()}, {platform.system()}"
    return (
        f"{' '.join(['baycue', *sys.argv[1:]])}; {request.swings} swings of seed {request.seed}; "
        f"{date.today().isoformat()}; {machine}"
    )


def refuse_fallen(figures: Figures, floors: tuple[Floor, ...]) -> None:
    """BaycueError that names every figure which fell below its floor."""
    lines = fallen(figures, floors)
    if lines:
        raise ShortfallError(f"bench: {'; '.join(lines)}")
