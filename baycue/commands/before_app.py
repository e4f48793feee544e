"""Before a session: the demo, the set-up, samples, the board, schemas."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import OUT, SAFETY, Hold, Out, PlanFile, Recording
from baycue.commands.terminal import terminal

before_app = typer.Typer()


@before_app.command(epilog=SAFETY)
def demo(out: Out = OUT, hold: Hold = 3.0) -> None:
    """Score a sample recording that comes with the project: no camera needed.

    The golfer and all numbers are invented. Where there is no display or no sound card, the
    big screen becomes a PNG and the tone a WAV.

    Example: `baycue demo --hold 10`
    """
    from baycue.commands.demo import run_demo

    run_demo(out, hold, terminal())


@before_app.command("check-setup", epilog=SAFETY)
def check_setup(
    recording: Recording,
    plan: PlanFile,
    seconds: Annotated[
        float, typer.Option(min=0.5, max=10.0, help="How much of the start is looked at")
    ] = 1.5,
) -> None:
    """Check on a recording's first seconds whether camera, light and golfer are set up right.

    The golfer stands at the ball and holds still meanwhile. Each matter is a go, a no-go with
    what to move and which way, or unsure. Exit code 5 if anything must be mended.

    Example: `baycue check-setup swing.mp4 --plan configs/left_hander_knee.yaml`
    """
    from baycue.commands.check_setup import CheckSetUpRequest, run_check_setup
    from baycue.errors import SceneError

    report = run_check_setup(CheckSetUpRequest(recording, plan, seconds), terminal())
    if not report.ready:
        raise typer.Exit(SceneError.exit_code)


@before_app.command("make-recording")
def make_recording(
    name: Annotated[
        str | None, typer.Argument(help="A recipe's name; without one, all are listed")
    ] = None,
    out: Annotated[Path, typer.Option(help="Folder for the clip and its truth")] = OUT,
    everything: Annotated[bool, typer.Option("--all", help="Make every recipe")] = False,
) -> None:
    """Make recordings of invented golfers whose exact truth is written beside them.

    For trying things out without a camera, and for checking what is measured: the truth
    says where each joint and the club really were.

    Example: `baycue make-recording knee_pass_30fps --out recordings`
    """
    from baycue.commands.make_recording import run_make_recording

    run_make_recording(name, everything, out, terminal())


@before_app.command("scale-board", epilog=SAFETY)
def scale_board(
    paper: Annotated[str, typer.Option(help="A4 or Letter")] = "A4",
    out: Annotated[Path, typer.Option(help="Folder for the PDF and the PNG")] = OUT,
) -> None:
    """Write the board to print, from which the picture's scale is read.

    Print it at 100 %, check its 100 mm line with a ruler, fix it to stiff card and stand it
    upright beside the lead foot, in line with the ankles and facing the camera, while the
    recording begins. Nothing may stand where the club or the ball passes: take it away before
    you swing. The plan then says `scale: {by: board}`.

    Example: `baycue scale-board --paper Letter --out prints`
    """
    from baycue.commands.scale_board import run_scale_board

    run_scale_board(paper, out, terminal())


@before_app.command()
def schema(
    of: Annotated[str, typer.Argument(help="plan: the coach's YAML; score: what --json writes")],
) -> None:
    """Print the JSON Schema of plans or of scores, for editors and other programs.

    Example: `baycue schema plan > plan.schema.json`
    """
    from baycue.commands.schema import run_schema

    run_schema(of)
