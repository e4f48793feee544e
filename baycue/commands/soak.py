"""Does the whole program stay as it is over hours of practice?"""

import os
import platform
import sys
import time
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from rich.console import Console

from baycue.capture.recording import RecordingSource
from baycue.commands.demo import project_folder
from baycue.commands.folders import refuse_unusable
from baycue.commands.latency import impact_frames
from baycue.errors import OutputError
from baycue.rehearsal.practice_show import SWINGS, TEE, Order, practice_order, swings_sent
from baycue.rehearsal.soak import SoakMeans, SwingsSent, soak
from baycue.rehearsal.soak_page import soak_page
from baycue.rehearsal.soak_record import SoakFacts, SoakRecord, read_record
from baycue.rehearsal.soak_table import soak_tables
from baycue.rehearsal.surroundings import missing

SAMPLES = Path("sample_recordings")
PLAN = Path("configs/right_hander_knee_head_tempo.yaml")
PAGE = "soak.html"


@dataclass(frozen=True, slots=True)
class SoakRequest:
    """How long, where to, how much film is kept, and whether screen and sound take part."""

    minutes: float
    out: Path
    films_gb: float = 1.0
    heard: bool = True


def run_soak(request: SoakRequest, console: Console) -> SoakRecord:
    """Run, then tell."""
    if sys.platform != "linux":
        raise OutputError("a soak looks at processes the Linux way; this is another system")
    refuse_unusable(request.out)
    home = project_folder()
    means = SoakMeans(home / SAMPLES, home / PLAN, counting(home / SAMPLES))
    with console.status(f"practising for {request.minutes:g} minutes"):
        record = soak(request.out.absolute(), _facts(request), means)
    _tell(record, request.out, console)
    return record


def run_read(folder: Path, console: Console) -> SoakRecord:
    """Tell what has been noted, also of a soak that was killed or goes on."""
    record = read_record(folder)
    _tell(record, folder, console)
    return record


def _tell(record: SoakRecord, folder: Path, console: Console) -> None:
    """The page follows from what was noted, so it is written anew each time."""
    if not record.looks or not record.vitals:
        raise OutputError(f"{folder}: nothing has been noted yet")
    console.print(*soak_tables(record), sep="\n", highlight=False)
    page = folder / PAGE
    page.write_text(soak_page(record), encoding="utf-8")
    console.print(f"Plots in {page}", soft_wrap=True)


def _facts(request: SoakRequest) -> SoakFacts:
    return SoakFacts(
        command=" ".join(["baycue", *sys.argv[1:]]),
        begun=datetime.now().astimezone().isoformat(timespec="seconds"),
        machine=f"{os.cpu_count()} cores, {platform.machine()}, {platform.system()}",
        start_ns=time.monotonic_ns(),
        minutes=request.minutes,
        films_gb=request.films_gb,
        lacking=missing() if request.heard else "not asked for",
    )


def counting(samples: Path, in_order: Order = practice_order) -> SwingsSent:
    """What tells how many impacts were among the first so many pictures of a show."""
    clips = {name: samples / f"{name}.mp4" for name in (TEE, *SWINGS)}
    order = in_order({name: _frames(clip) for name, clip in clips.items()})
    impacts = {name: impact_frames(clips[name])[0] for name in SWINGS}
    return lambda sent: swings_sent(order, impacts, sent)


def _frames(clip: Path) -> int:
    with RecordingSource(clip) as source:
        return sum(1 for _ in source)
