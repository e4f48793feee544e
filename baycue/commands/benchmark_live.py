"""Does the live loop keep up with a camera for minutes on end?"""

import os
import platform
from pathlib import Path

from rich.console import Console
from rich.table import Table

from baycue.commands.benchmark import bare_pose_fps
from baycue.commands.demo import project_folder
from baycue.plan.load import load_plan
from baycue.rehearsal.endurance import Endurance, endure

CLIP = Path("sample_recordings/wedge_60fps.mp4")
PLAN = Path("configs/wedge_knee.yaml")


def run_benchmark_live(minutes: float, console: Console) -> Endurance:
    """Measure and print."""
    home = project_folder(CLIP)
    with console.status(f"showing {CLIP.name} for {minutes:g} minutes"):
        done = endure(home / CLIP, load_plan(home / PLAN), minutes)
    with console.status("the pose model alone, after it"):
        bare_fps = bare_pose_fps(home / CLIP)
    console.print(endurance_table(done, bare_fps))
    return done


def endurance_table(done: Endurance, bare_fps: float) -> Table:
    """``bare_fps``: poses a second of the pose model alone, the baseline."""
    table = Table("what", "measured")
    table.add_row("machine", f"{os.cpu_count()} cores, {platform.machine()}, {platform.system()}")
    table.add_row("frames sent by the camera", f"{done.sent} in {done.samples[-1].at_s:.0f} s")
    table.add_row("frames lost before the ring", str(done.lost))
    table.add_row("frames damaged", str(done.damaged))
    table.add_row("camera opened, times", str(done.times_opened))
    table.add_row("poses", f"{done.poses_a_second:.1f} a second")
    table.add_row("bare pose call, decoded frames", f"{bare_fps:.1f} a second")
    table.add_row("ratio", f"{done.poses_a_second / bare_fps:.2f}")
    table.add_row("swings answered", str(done.swings))
    table.add_row("resident memory, most", f"{done.peak_mb:.0f} MB")
    growth = done.growth
    table.add_row(
        "its slope after the first fifth",
        f"{growth.per_h:+.0f} ({growth.low:+.0f} to {growth.high:+.0f}) MB an hour",
    )
    return table
