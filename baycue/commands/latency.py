"""How long after impact the golfer hears the answer: software, output, end to end."""

from dataclasses import dataclass
from pathlib import Path
from tempfile import TemporaryDirectory

from rich.console import Console
from rich.table import Table

from baycue.capture.recording import RecordingSource
from baycue.commands.demo import project_folder
from baycue.errors import TruthFileError
from baycue.plan.load import load_plan
from baycue.rehearsal.latency import Spread, spread
from baycue.rehearsal.rehearse import Rehearsed, rehearse
from baycue.rehearsal.surroundings import missing
from baycue.synthetic.truth_file import read_truth

CLIP = Path("sample_recordings/knee_fail_30fps.mp4")
PLAN = Path("configs/right_hander_knee_head_tempo.yaml")


@dataclass(frozen=True, slots=True)
class LatencyRequest:
    """A sample with its truth beside it, the plan to judge by, and how many swings.

    ``kept``: film and keep every swing meanwhile, in a folder that is deleted afterwards;
    ``compact``: and make its film small.
    """

    clip: Path | None
    plan: Path | None
    swings: int
    heard: bool = True
    kept: bool = False
    compact: bool = True


def run_latency(request: LatencyRequest, console: Console) -> Rehearsed:
    """Measure and print."""
    clip, plan_file = request.clip or project_folder() / CLIP, request.plan
    plan = load_plan(plan_file or project_folder() / PLAN)
    lacking = missing() if request.heard else "not asked for"
    with (
        console.status(f"showing {clip.name} until {request.swings} swings are answered"),
        TemporaryDirectory(prefix="baycue-kept-") as folder,
    ):
        kept_in = Path(folder) if request.kept else None
        heard, impacts = lacking is None, impact_frames(clip)
        done = rehearse(
            clip, plan, impacts, request.swings, heard, kept_in, makes_small=request.compact
        )
    console.print(_table(done, lacking))
    console.print(_split(done))
    for line in done.kept:
        console.print(line, soft_wrap=True, highlight=False, markup=False)
    return done


def impact_frames(clip: Path) -> tuple[int, ...]:
    """The clip's first frame at or after each true impact, from the truth beside it."""
    truth_file = clip.with_suffix(".truth.json")
    if not truth_file.exists():
        raise TruthFileError(f"{clip}: has no {truth_file.name} beside it; take a sample recording")
    with RecordingSource(clip) as source:
        stamps_ns = [frame.stamp_ns for frame in source]
    impacts_ns = [s.checkpoints_s["impact"] * 1e9 for s in read_truth(truth_file).swings]
    return tuple(next(k for k, at in enumerate(stamps_ns) if at >= wanted) for wanted in impacts_ns)


def _table(done: Rehearsed, lacking: str | None) -> Table:
    fps = "unknown" if done.fps is None else f"{done.fps:.1f} a second"
    table = Table("latency, ms", "swings", "median", "95th percentile", "largest", title=fps)
    software = [t.software_ms for t in done.told if t.software_ms is not None]
    _row(table, "software: impact frame's stamp to cue submitted", spread(software))
    output = [] if done.output_ms is None else [done.output_ms]
    _row(table, "estimated output: the sound driver's own figure", spread(output), lacking)
    heard = [ms for ms in done.end_to_end_ms if ms is not None]
    _row(table, "measured end to end: impact frame sent to tone", spread(heard), lacking)
    unheard = len(done.end_to_end_ms) - len(heard)
    table.add_row("impacts shown and not answered", str(unheard), "", "", "")
    return table


def _row(table: Table, name: str, values: Spread | None, lacking: str | None = None) -> None:
    if values is None:
        table.add_row(name, "0", f"not measured: {lacking}" if lacking else "", "", "")
        return
    figures = (f"{v:.0f}" for v in (values.median, values.p95, values.largest))
    table.add_row(name, str(values.count), *figures)


def _split(done: Rehearsed) -> Table:
    table = Table("where the software's time goes, ms", "median", "95th percentile", "largest")
    splits = [t.timing.split_ms for t in done.told]
    for name in splits[0] if splits else ():
        values = spread([split[name] for split in splits])
        if values:
            table.add_row(
                name, f"{values.median:.1f}", f"{values.p95:.1f}", f"{values.largest:.1f}"
            )
    cues = [(t.cue_ns - t.timing.scored_ns) / 1e6 for t in done.told if t.cue_ns is not None]
    values = spread(cues)
    if values:
        table.add_row(
            "submit the cue", f"{values.median:.1f}", f"{values.p95:.1f}", f"{values.largest:.1f}"
        )
    return table
