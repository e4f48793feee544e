"""Every fault put upon a real session, one after another, and a table of what came of them."""

import json
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.commands.demo import project_folder
from baycue.errors import BaycueError, OutputError
from baycue.plan.words import guess
from baycue.rehearsal.faults.bay import BayFiles
from baycue.rehearsal.faults.disk import may_mount
from baycue.rehearsal.faults.fault import Fault
from baycue.rehearsal.faults.kinds import faults
from baycue.rehearsal.faults.result import FaultResult, read_result, write_result
from baycue.rehearsal.faults.run import rehearse_fault
from baycue.rehearsal.surroundings import missing


@dataclass(frozen=True, slots=True)
class FaultsRequest:
    """``only``: names, none for all.  ``results``: the folder of results, one file a fault; those
    that are there already are not rehearsed again unless ``anew``.
    """

    only: Sequence[str]
    results: Path
    anew: bool = False


def run_rehearse_faults(request: FaultsRequest, console: Console) -> None:
    """Rehearse, print, write; OutputError if any ended badly."""
    request.results.mkdir(parents=True, exist_ok=True)
    chosen = _chosen(request.only)
    results = [_one(fault, request, console) for fault in chosen]
    found = [result for result in results if result is not None]
    console.print(faults_table(found))
    summary = request.results / "faults.json"
    summary.write_text(json.dumps([asdict(r) for r in found], indent=2) + "\n", encoding="utf-8")
    bad = [result.name for result in found if result.badly]
    minutes = sum(result.lasted_s for result in found) / 60
    begun = min((result.begun for result in found), default="never")
    console.print(f"{len(found)} faults in {minutes:.0f} minutes, the first begun {begun}")
    console.print(f"{len(bad)} ended badly; written to {summary}")
    if bad:
        raise OutputError(f"ended badly: {', '.join(bad)}")


def list_faults(console: Console) -> None:
    """Names and what is done."""
    table = Table("fault", "what is done")
    for fault in faults():
        table.add_row(fault.name, fault.done)
    console.print(table)


def faults_table(results: Iterable[FaultResult]) -> Table:
    """One row a fault."""
    table = Table(
        "fault", "done", "the golfer saw", "told after, s", "verdict after, s", "lost", ""
    )
    for r in results:
        told, again = (f"{s:.1f}" if s is not None else "" for s in (r.told_s, r.recovery_s))
        table.add_row(r.name, r.done, r.saw, told, again, r.lost, r.badly or "well")
    return table


def the_bays_files() -> BayFiles:
    """A sample that fails by its plan, and one in which somebody walks by."""
    home = project_folder()
    samples = home / "sample_recordings"
    return BayFiles(
        samples / "knee_fail_30fps.mp4",
        samples / "no_swing_30fps.mp4",
        home / "configs" / "right_hander_knee_head_tempo.yaml",
        "FAIL",
    )


def _chosen(only: Sequence[str]) -> list[Fault]:
    known = {fault.name: fault for fault in faults()}
    for name in only:
        if name not in known:
            raise BaycueError(f'"{name}": no such fault{guess(name, known)}; see --list')
    return [known[name] for name in only] if only else list(known.values())


def _one(fault: Fault, request: FaultsRequest, console: Console) -> FaultResult | None:
    kept = None if request.anew else read_result(request.results, fault.name)
    if kept is not None:
        return kept
    lacking = _lacking(fault)
    if lacking:
        console.print(f"{fault.name}: left out, {lacking}", soft_wrap=True)
        return None
    with console.status(f"{fault.name}: {fault.done}"):
        log = request.results / f"{fault.name}.log"
        result = rehearse_fault(fault, the_bays_files(), log)
    write_result(request.results, result)
    how = result.badly or "well"
    console.print(f"{fault.name}: {how}", soft_wrap=True, highlight=False, markup=False)
    return result


def _lacking(fault: Fault) -> str:
    """Why the fault cannot be rehearsed here; empty if it can."""
    settings = fault.settings
    if settings.display or settings.sound:
        return missing() or ""
    return "only root may mount a small disk" if settings.small_disk and not may_mount() else ""
