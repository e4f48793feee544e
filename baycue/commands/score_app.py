"""Recordings scored: one, or a folder of them."""

import os
from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import (
    OUT,
    SAFETY,
    AnnotatedClip,
    Hold,
    JsonFile,
    Out,
    PlanFile,
    Recording,
    Silent,
    Tones,
)
from baycue.commands.terminal import terminal

score_app = typer.Typer()


@score_app.command(epilog=SAFETY)
def score(
    recording: Recording,
    plan: PlanFile,
    out: Out = OUT,
    json_file: JsonFile = None,
    annotate: AnnotatedClip = None,
    table_only: Silent = False,
    hold: Hold = 3.0,
    tones: Tones = "standard",
    blur_faces: Annotated[
        bool, typer.Option("--blur-faces", help="Make the head unrecognisable in that clip")
    ] = False,
) -> None:
    """Score a recorded swing against a plan.

    Finds each swing, its club and its checkpoints, measures what the plan asks and answers
    pass, fail or too close to call: in a table, on the big screen and by ear. No file is
    ever overwritten.

    Example: `baycue score swing.mp4 --plan configs/left_hander_knee.yaml --json swing.json`
    """
    from baycue.commands.score import ScoreRequest, run_score
    from baycue.cues.voice_catalogue import voice_named

    voice = voice_named(tones)
    request = ScoreRequest(
        recording, plan, out, json_file, annotate, table_only, hold, voice, blur_faces
    )
    run_score(request, terminal())


@score_app.command("score-folder")
def score_folder(
    folder: Annotated[Path, typer.Argument(help="Looked through with all its folders")],
    plan: PlanFile,
    out: Annotated[Path, typer.Option(help="Folder for results; run again to go on")] = OUT
    / "folder",
    workers: Annotated[
        int | None,
        typer.Option(min=1, help="Processes at work; else one a core", show_default=False),
    ] = None,
    scheduler: Annotated[
        str | None,
        typer.Option(
            help="Work on a Dask cluster instead: its address, or `local`; needs baycue[academy]"
        ),
    ] = None,
) -> None:
    """Score every recording in a folder against one plan.

    Clips are scored in parallel, each result is a file of its own, and one summary tells of
    all. The same command goes on where it stopped; a clip or plan that changed is scored anew
    and the older result stays. A clip that cannot be used is a line in the summary.

    Example: `baycue score-folder season_2026 --plan configs/left_hander_knee.yaml --out scores`
    """
    from baycue.commands.score_folder import FolderRequest, run_score_folder

    at_work = workers or os.cpu_count() or 1
    run_score_folder(FolderRequest(folder, plan, out, at_work, scheduler), terminal())


@score_app.command("benchmark-folder")
def benchmark_folder(
    folder: Annotated[Path, typer.Argument(help="A few recordings")],
    plan: PlanFile,
    workers: Annotated[int, typer.Option(min=1, help="Processes to set against one")] = 2,
) -> None:
    """Measure how much faster several processes score a folder than one does.

    Prints clips a minute of both and their ratio on this machine; nothing is kept.

    Example: `baycue benchmark-folder clips --plan configs/left_hander_knee.yaml --workers 4`
    """
    from baycue.commands.benchmark_folder import run_benchmark_folder

    run_benchmark_folder(folder, plan, workers, terminal())
