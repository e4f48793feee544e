"""Afterwards: the coach's report, and a swing seen again."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import OUT
from baycue.commands.terminal import terminal

after_app = typer.Typer()


@after_app.command()
def report(
    student: Annotated[str, typer.Argument(help="As the plan has it")],
    since: Annotated[str | None, typer.Option("--from", help="First day: 2026-11-01")] = None,
    until: Annotated[str | None, typer.Option("--to", help="Last day")] = None,
    text: Annotated[
        bool, typer.Option("--text", help="Print it instead of writing a page")
    ] = False,
    out: Annotated[Path, typer.Option(help="The page, a new file")] = Path("practice.html"),
    keep: Annotated[
        Path | None,
        typer.Option(help="Where swings were kept; else the usual place", show_default=False),
    ] = None,
    blur_faces: Annotated[
        bool, typer.Option("--blur-faces", help="Make heads in pictures unrecognisable")
    ] = False,
) -> None:
    """Tell the coach how the practice went: one page that needs nothing beside it.

    What was asked and how often it was met, session by session, with pictures of the best and
    a typical failing swing. Opens in any browser without a network, and prints to A4.

    Example: `baycue report Heron --from 2026-11-01 --out heron.html --blur-faces`
    """
    from baycue.commands.report import ReportRequest, day, run_report
    from baycue.keep.place import Place, default_folder

    first, last = day(since, "--from"), day(until, "--to")
    place, page = Place(keep or default_folder()), None if text else out
    run_report(ReportRequest(student, place, first, last, page, blur_faces), terminal())


@after_app.command()
def replay(
    swing: Annotated[
        Path | None,
        typer.Argument(
            help="A kept swing (its .json.gz) or a recording; else the newest kept swing",
            show_default=False,
        ),
    ] = None,
    against: Annotated[
        Path | None, typer.Option(help="Another swing beside it, kept or recorded")
    ] = None,
    plan: Annotated[
        Path | None, typer.Option("--plan", "-p", help="The plan that a recording is scored by")
    ] = None,
    against_plan: Annotated[
        Path | None, typer.Option(help="The other recording's plan, if it is another")
    ] = None,
    number: Annotated[int, typer.Option(min=1, help="Which swing of a recording")] = 1,
    speed: Annotated[float, typer.Option(help="1, 0.5, 0.25 or 0.125")] = 0.25,
    at: Annotated[str | None, typer.Option(help="Begin standing at a checkpoint: P6")] = None,
    together: Annotated[
        str, typer.Option(help='The other swing "side by side", as a "ghost", or "alone"')
    ] = "side by side",
    downswing: Annotated[bool, typer.Option("--downswing", help="Only the way down")] = False,
    film: Annotated[Path | None, typer.Option(help="Write an MP4 instead of a window")] = None,
    gif: Annotated[Path | None, typer.Option(help="Write a GIF")] = None,
    still: Annotated[Path | None, typer.Option(help="Write a PNG")] = None,
    blur_faces: Annotated[
        bool, typer.Option("--blur-faces", help="Make heads unrecognisable, in files too")
    ] = False,
    out: Annotated[Path, typer.Option(help="Where the keys M, I and T write to")] = OUT,
    keep: Annotated[
        Path | None,
        typer.Option(help="Where swings were kept; else the usual place", show_default=False),
    ] = None,
) -> None:
    """See a swing again in slow motion, with what its targets measured drawn on it.

    Beside or over another swing if you like, checkpoint by checkpoint; a left-hander and a
    right-hander are turned the same way round. Keys and mouse are told at the foot.

    Example: `baycue replay swing.mp4 --plan configs/left_hander_knee.yaml --at P6`
    """
    from baycue.commands.replay import ReplayRequest, run_replay
    from baycue.keep.place import Place, default_folder

    request = ReplayRequest(
        swing,
        against,
        plan,
        against_plan,
        number,
        Place(keep or default_folder()),
        out,
        speed,
        at,
        together,
        downswing,
        film,
        gif,
        still,
        blur_faces,
    )
    run_replay(request, terminal())
