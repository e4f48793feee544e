"""How fast and how right the program is, on recordings and on synthetic swings."""

from dataclasses import replace
from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import OUT, Clips, PlanFile, Recording
from baycue.commands.terminal import terminal
from baycue.plan.stance import View

bench_app = typer.Typer()


@bench_app.command()
def benchmark(recording: Recording, plan: PlanFile) -> None:
    """Measure speed: the whole spine against the bare pose call on the same frames.

    Prints frames a second of both on this machine and their ratio; takes a few times as long
    as scoring.

    Example: `baycue benchmark swing.mp4 --plan configs/left_hander_knee.yaml`
    """
    from baycue.commands.benchmark import run_benchmark

    run_benchmark(recording, plan, terminal())


@bench_app.command()
def bench(
    swings: Annotated[int, typer.Option(min=1, help="How many swings to draw")] = 200,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = OUT
    / "bench",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    short: Annotated[
        bool, typer.Option("--short", help="A few swings, and fail below the floors; for CI")
    ] = False,
    clips: Clips = None,
) -> None:
    """Say how right the program is, on random synthetic swings whose truth is known.

    Draws invented golfers, cameras and swings, scores each blind and compares with the
    truth: tables here, bench.json and a page with plots in the folder. Each result is
    kept at once; the same command goes on where it stopped. Real golfers are not measured.

    Example: `baycue bench --swings 60 --seed 2 --out bench_2`
    """
    from baycue.commands.bench import BenchRequest, run_bench, short_request

    asked = short_request(out, workers) if short else BenchRequest(swings, seed, out, workers)
    run_bench(replace(asked, clips=clips), terminal())


@bench_app.command("bench-calibrate")
def bench_calibrate(
    swings: Annotated[int, typer.Option(min=1, help="How many swings to draw")] = 120,
    seed: Annotated[int, typer.Option(min=0, help="Which population; not the bench's")] = 2,
    out: Annotated[Path, typer.Option(help="Folder for calibration.yaml")] = OUT / "calibrate",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    clips: Clips = None,
    view: Annotated[View, typer.Option(help="face-on or down-the-line")] = View.FACE_ON,
) -> None:
    """Fit anew how the pose model's landmarks stand to true joints.

    Looks at random synthetic swings, fits the constants on every other one and tests them on
    the rest; writes calibration.yaml (calibration_behind.yaml down the line), as the package
    keeps it in baycue/measures.

    Example: `baycue bench-calibrate --swings 60 --seed 4`
    """
    from baycue.commands.bench_calibrate import CalibrateRequest, run_bench_calibrate

    request = CalibrateRequest(swings, seed, out, workers, clips)
    if view is View.FACE_ON:
        run_bench_calibrate(request, terminal())
        return
    from baycue.commands.bench_calibrate_behind import run_bench_calibrate_behind

    run_bench_calibrate_behind(request, terminal())


@bench_app.command("bench-measures")
def bench_measures(
    swings: Annotated[int, typer.Option(min=0, help="How many swings face-on")] = 60,
    behind: Annotated[int, typer.Option(min=0, help="How many swings down the line")] = 40,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = OUT
    / "bench",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    clips: Clips = None,
    write_figures: Annotated[
        bool,
        typer.Option("--write-figures", help="Write baycue/measures/figures.yaml, over the old"),
    ] = False,
) -> None:
    """Say how right every measure is, face-on and down the line.

    Takes each measure of the catalogue on random synthetic swings, blind, and compares with the
    truth: a table here, measures.json in the folder. Each result is kept at once; the same
    command goes on where it stopped. Real golfers are not measured.

    Example: `baycue bench-measures --swings 60 --behind 40 --write-figures`
    """
    from baycue.commands.bench_measures import MeasuresRequest, run_bench_measures

    request = MeasuresRequest(swings, behind, seed, out, workers, clips, write_figures)
    run_bench_measures(request, terminal())


@bench_app.command("bench-detector")
def bench_detector(
    swings: Annotated[int, typer.Option(min=1, help="Swings, 30 and 60 fps in turn")] = 10,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 3,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = OUT
    / "bench",
) -> None:
    """Say how well the pose model follows each joint, and what its own smoothing costs.

    Renders random synthetic swings and follows them three ways: MediaPipe told the true
    time, told what Baycue tells it, and shown each picture alone. Prints error, lag, jitter
    and each landmark's noise against the truth, and writes detector.json.

    Example: `baycue bench-detector --swings 4 --out bench_detector`
    """
    from baycue.commands.bench_detector import DetectorRequest, run_bench_detector

    run_bench_detector(DetectorRequest(swings, seed, out), terminal())


@bench_app.command("bench-scale")
def bench_scale(
    golfers: Annotated[int, typer.Option(min=1, help="How many golfers to draw")] = 36,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 5,
) -> None:
    """Say how right the scale is by stature, stick and board, on still synthetic golfers.

    Draws invented golfers and cameras, puts a stick and a board beside them as well as people
    would, and compares pixels per metre and the camera's yaw with the truth.

    Example: `baycue bench-scale --golfers 12`
    """
    from baycue.commands.bench_scale import run_bench_scale

    run_bench_scale(golfers, seed, terminal())


@bench_app.command("bench-idle")
def bench_idle(
    minutes: Annotated[float, typer.Option(min=0.1, help="How much to draw")] = 30.0,
    seed: Annotated[int, typer.Option(min=0, help="Which population")] = 1,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = OUT
    / "bench_idle",
    workers: Annotated[int, typer.Option(min=1, help="Processes at work")] = 2,
    clips: Clips = None,
) -> None:
    """Say how often the program sees a swing where there is none.

    Draws invented golfers who waggle, tee a ball, stretch, chip, swing half, walk in and out,
    an empty bay, people passing by or looking on; counts every swing told of. Each clip's
    result is kept at once; the same command goes on where it stopped. Clips with a false
    swing are kept in the folder.

    Example: `baycue bench-idle --minutes 5 --seed 2 --out idle_2`
    """
    from baycue.commands.bench_idle import IdleRequest, run_bench_idle

    run_bench_idle(IdleRequest(minutes, seed, out, workers, clips), terminal())
