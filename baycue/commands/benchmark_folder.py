"""How much faster many processes score a folder than one does."""

import os
import platform
import time
from collections.abc import Sequence
from pathlib import Path

from rich.console import Console

from baycue.folder.clips import Clip, clips_in
from baycue.folder.engine import Score, process_engine, result_of
from baycue.keep.record import PlanText
from baycue.plan.file import plan_text
from baycue.plan.load import parse_plan


def run_benchmark_folder(
    folder: Path, plan_file: Path, workers: int, console: Console, score: Score = result_of
) -> None:
    """Score every clip with one process, then with many, and print the ratio; nothing is kept."""
    plan = PlanText(plan_file.name, plan_text(plan_file))
    parse_plan(plan.text, str(plan_file))
    clips = clips_in(folder)
    with console.status(f"scoring {len(clips)} clips twice"):
        one_s, one = _timed(clips, plan, 1, score)
        many_s, many = _timed(clips, plan, workers, score)
    same = "the same to the byte" if one == many else "NOT THE SAME"
    machine = f"{os.cpu_count()} cores, {platform.machine()}, {platform.system()}"
    console.print(
        f"{len(clips)} clips on {machine}: one process {60 * len(clips) / one_s:.1f} a minute, "
        f"{workers} processes {60 * len(clips) / many_s:.1f}; ratio {one_s / many_s:.2f}; "
        f"results {same}",
        soft_wrap=True,
        highlight=False,
    )


def _timed(
    clips: Sequence[Clip], plan: PlanText, workers: int, score: Score
) -> tuple[float, dict[str, object]]:
    """Seconds, with the processes' start and the loading of the pose model in each."""
    start = time.perf_counter()
    answers = {c.name: answer for c, answer in process_engine(workers, score)(clips, plan)}
    return time.perf_counter() - start, dict(answers)
