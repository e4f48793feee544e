"""The idle bench: how often is something a swing that is none?"""

import json
from collections.abc import Sequence
from dataclasses import asdict, dataclass
from functools import cached_property, partial
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.bench.idle_population import IdleDraw, idle_draws
from baycue.bench.idle_record import IdleRecord, IdleSums, by_activity, from_line, to_line
from baycue.bench.idle_take import keep_clip, take_idle
from baycue.bench.results import add_line, parsed_lines
from baycue.bench.run import taken_in_turn
from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.errors import OtherRunError

CAUTION = (
    "Synthetic golfers at 640 x 360, 25 frames a second, without motion blur: real ones were "
    "not measured."
)


@dataclass(frozen=True)
class IdleRequest:
    """How many minutes of which seed, where results and clips are kept, in how many processes."""

    minutes: float
    seed: int
    out: Path
    workers: int = 1
    clips: Path | None = None

    @cached_property
    def draws(self) -> tuple[IdleDraw, ...]:
        """The population."""
        return tuple(idle_draws(self.seed, self.minutes))

    @property
    def results(self) -> Path:
        """Where records are kept."""
        return self.out / "idle.jsonl"


def run_bench_idle(request: IdleRequest, console: Console) -> tuple[IdleSums, ...]:
    """Take what is missing, then tell; clips with a false swing are kept."""
    refuse_unusable(request.out)
    _take_missing(request, console)
    sums = by_activity(_records(request))
    console.print(idle_table(sums, request.seed), highlight=False)
    document = {"seed": request.seed, "caution": CAUTION, "activities": [asdict(s) for s in sums]}
    figures = request.out / "idle.json"
    figures.write_text(json.dumps(document, indent=1), encoding="utf-8")
    console.print(f"Figures written to {figures}", soft_wrap=True)
    return sums


def _take_missing(request: IdleRequest, console: Console) -> None:
    done = {record.drawn.number for record in _records(request)}
    missing = [one for one in request.draws if one.number not in done]
    with progress_bar(console) as bar:
        task = bar.add_task("idle clips", total=len(request.draws), completed=len(done))
        take = partial(take_idle, clips=request.clips)
        for one, record in taken_in_turn(missing, request.workers, take):
            add_line(request.results, to_line(record))
            if record.swings_at_s:
                _keep(request, one)
            bar.advance(task)


def _keep(request: IdleRequest, one: IdleDraw) -> None:
    path = request.out / "false_swings" / f"clip_{one.number}_{one.activity.replace(' ', '_')}.mp4"
    if not path.exists():
        keep_clip(one, path)


def _records(request: IdleRequest) -> list[IdleRecord]:
    """Those of the request that are there; OutputError if they are of another seed."""
    kept = parsed_lines(request.results, from_line)
    other = next((r.drawn.drawn.seed for r in kept if r.drawn.drawn.seed != request.seed), None)
    if other is not None:
        raise OtherRunError(
            f"{request.results}: holds clips of seed {other}, not {request.seed}; "
            "name another --out"
        )
    wanted = {one.number for one in request.draws}
    return sorted((r for r in kept if r.drawn.number in wanted), key=lambda r: r.drawn.number)


def idle_table(sums: Sequence[IdleSums], seed: int) -> Table:
    """Every activity, and all of them last."""
    title = f"No swing in it: {sums[-1].minutes:.1f} minutes of seed {seed}"
    table = Table("activity", title=title, caption=CAUTION)
    for heading in ("clips", "minutes", "golfer seen", "seen, nobody there", "false swings"):
        table.add_column(heading, justify="right")
    for each in sums:
        table.add_row(
            each.activity,
            str(each.clips),
            f"{each.minutes:.1f}",
            _share(each.seen_share),
            _share(each.ghost_share),
            str(each.false_swings),
        )
    return table


def _share(share: float) -> str:
    return "" if share != share else f"{100 * share:.1f} %"
