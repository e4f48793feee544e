"""Score a folder of recordings: progress, one result a clip, one summary."""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from itertools import count
from pathlib import Path

from rich.console import Console
from rich.table import Table
from rich.text import Text

from baycue.commands.folders import refuse_unusable
from baycue.commands.progress import progress_bar
from baycue.folder.clips import Clip, clips_in
from baycue.folder.cluster import cluster_engine
from baycue.folder.engine import Engine, process_engine
from baycue.folder.run import KEPT, NEW, Told, score_folder
from baycue.folder.store import Store, keep_whole
from baycue.folder.summary import FolderSummary, Tally, summarised
from baycue.keep.record import PlanText
from baycue.plan.file import plan_text
from baycue.plan.load import parse_plan


@dataclass(frozen=True, slots=True)
class FolderRequest:
    """What to score, where results go, and what does the work: processes or a cluster."""

    folder: Path
    plan: Path
    out: Path
    workers: int
    scheduler: str | None = None


def run_score_folder(request: FolderRequest, console: Console) -> FolderSummary:
    """Score what has no result yet, then tell of everything."""
    plan = PlanText(request.plan.name, plan_text(request.plan))
    parse_plan(plan.text, str(request.plan))  # a faulty one is told before the work
    clips = clips_in(request.folder)
    refuse_unusable(request.out)
    summary = summarised(plan, told := _told(request, clips, plan, console))
    _say(console, _news(told))
    for table in summary_tables(summary):
        console.print(table, "", highlight=False)
    for line in summary.clips:
        if line.trouble:
            _say(console, f"{line.clip}: {line.trouble}")
    _say(console, _written(request.out, summary))
    return summary


def _told(
    request: FolderRequest, clips: tuple[Clip, ...], plan: PlanText, console: Console
) -> list[Told]:
    told: list[Told] = []
    store = Store(request.out / "results")
    with _engine(request) as engine, progress_bar(console) as bar:
        task = bar.add_task("clips", total=len(clips))
        for one in score_folder(clips, plan, store, engine):
            told.append(one)
            bar.advance(task)
    return told


@contextmanager
def _engine(request: FolderRequest) -> Iterator[Engine]:
    if request.scheduler is None:
        yield process_engine(request.workers)
    else:
        with cluster_engine(request.scheduler, request.workers) as engine:
            yield engine


def _news(told: list[Told]) -> str:
    """How the results came about, the clips that changed each on a line of its own."""
    kept, new = (sum(one.news == news for one in told) for news in (KEPT, NEW))
    anew = sorted(f"{one.clip.name}: {one.news}" for one in told if one.news not in (KEPT, NEW))
    return "\n".join([*anew, f"{len(told)} clips: {new} scored, {len(anew)} anew, {kept} kept."])


def summary_tables(summary: FolderSummary) -> tuple[Table, Table]:
    """Every clip a row; then a row for the swings of all and for each target."""
    clips, rates = (_table(heading) for heading in ("clip", f"{summary.student}, all clips"))
    rates.add_column("pass rate")
    rates.add_column("95 %")
    for line in summary.clips:
        cells = _counts(line.outcomes) if line.trouble is None else ("refused", "", "", "")
        clips.add_row(Text(line.clip), *cells)
    rates.add_row("swings", *_tallied(summary.swings))
    for target in summary.targets:
        watched = " (watched only)" if target.watch_only else ""
        rates.add_row(Text(f"{target.target}{watched}"), *_tallied(target.tally))
    return clips, rates


def _table(first: str) -> Table:
    table = Table(first, box=None, pad_edge=False, padding=(0, 2, 0, 0), header_style="dim")
    for heading in ("answers", "pass", "fail", "too close"):
        table.add_column(heading, justify="right", no_wrap=True)
    return table


def _counts(outcomes: tuple[str, ...]) -> tuple[str, ...]:
    counted = [outcomes.count(word) for word in ("pass", "fail", "too close to call")]
    return str(len(outcomes)), *map(str, counted)


def _tallied(tally: Tally) -> tuple[str, ...]:
    counted = tally.passed, tally.failed, tally.too_close
    rate = ("none called", "")
    if tally.pass_rate is not None and tally.low is not None and tally.high is not None:
        rate = f"{tally.pass_rate:.0%}", f"{tally.low:.0%} to {tally.high:.0%}"
    return str(sum(counted) + tally.not_measured), *map(str, counted), *rate


def _say(console: Console, line: str) -> None:
    console.print(line, soft_wrap=True, highlight=False, markup=False)


def _written(out: Path, summary: FolderSummary) -> str:
    """Keep the summary as the first free ``summary-N.json``, unless the last says the same."""
    content = (summary.model_dump_json(indent=2) + "\n").encode()
    for number in count(1):
        path = out / f"summary-{number}.json"
        if not path.exists():
            break
    last = out / f"summary-{number - 1}.json"
    if last.exists() and last.read_bytes() == content:
        return f"Summary as before, in {last}"
    keep_whole(path, content)
    return f"Summary written to {path}, results in {out / 'results'}"
