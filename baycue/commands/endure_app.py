"""How fast the live loop is, and whether it lasts."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import OUT
from baycue.commands.terminal import terminal

endure_app = typer.Typer()


@endure_app.command()
def latency(
    swings: Annotated[int, typer.Option(min=1, help="How many swings to measure")] = 50,
    clip: Annotated[
        Path | None, typer.Option(help="A sample with its truth beside it; else one of 30 fps")
    ] = None,
    plan: Annotated[Path | None, typer.Option("--plan", "-p", help="The plan to judge by")] = None,
    heard: Annotated[bool, typer.Option(help="With screen, sound card and recorder")] = True,
    kept: Annotated[
        bool, typer.Option(help="Film and keep every swing too, in a folder deleted afterwards")
    ] = False,
    compact: Annotated[bool, typer.Option(help="With --kept: make films small meanwhile")] = True,
) -> None:
    """Measure how long after impact the tone comes: software, estimated output, end to end.

    A clip is served frame by frame as a network camera would, the whole live loop watches it,
    the tone goes into a silent sound card and is recorded from there. Needs PulseAudio and
    Xvfb; without them only the software is measured.

    Example: `baycue latency --swings 50`
    """
    from baycue.commands.latency import LatencyRequest, run_latency

    run_latency(LatencyRequest(clip, plan, swings, heard, kept, compact), terminal())


@endure_app.command("benchmark-log")
def benchmark_log(
    swings: Annotated[int, typer.Option(min=100, help="How long the log is")] = 100_000,
) -> None:
    """Measure how long screens wait for a long log, beside the same log without indexes.

    Example: `baycue benchmark-log --swings 100000`
    """
    from baycue.commands.benchmark_log import run_benchmark_log

    run_benchmark_log(swings, terminal())


@endure_app.command()
def soak(
    minutes: Annotated[float, typer.Option(min=0.1, help="How long to practise")] = 120.0,
    out: Annotated[Path, typer.Option(help="Folder for results, a new one each time")] = OUT
    / "soak",
    films_gb: Annotated[
        float, typer.Option(min=0.0, help="Films beyond so many gigabytes go, the oldest first")
    ] = 1.0,
    heard: Annotated[bool, typer.Option(help="With screen and sound card")] = True,
    read: Annotated[
        bool, typer.Option("--read", help="Run nothing: tell what lies in the folder so far")
    ] = False,
) -> None:
    """Practise for hours with nobody there, and tell whether anything grows, slows or is lost.

    A camera on this machine shows a golfer who tees a ball, rehearses, stands to it and swings,
    every 20 to 30 seconds, 720p at 30 frames a second, in real time; `baycue live` watches with
    all it has, keeps every swing in a temporary folder and shows its replay. Memory, threads,
    file handles, poses and latencies are noted every 5 s, then told as a table of slopes and a
    page with plots. After a kill `--read` tells what had been noted.

    Example: `baycue soak --minutes 10 --out my_soak`
    """
    from baycue.commands.soak import SoakRequest, run_read, run_soak

    if read:
        run_read(out, terminal())
    else:
        run_soak(SoakRequest(minutes, out, films_gb, heard), terminal())


@endure_app.command("benchmark-live")
def benchmark_live(
    minutes: Annotated[float, typer.Option(min=0.1, help="How long to run")] = 10.0,
) -> None:
    """Measure whether the live loop keeps up with 720p at 60 frames a second, and stays flat.

    Prints frames lost, poses a second, memory and its slope.

    Example: `baycue benchmark-live --minutes 10`
    """
    from baycue.commands.benchmark_live import run_benchmark_live

    run_benchmark_live(minutes, terminal())
