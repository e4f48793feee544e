"""What can go wrong: every error told, every fault rehearsed."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import OUT
from baycue.commands.terminal import terminal

trouble_app = typer.Typer()


@trouble_app.command("errors")
def errors(
    code: Annotated[
        str | None,
        typer.Argument(help="As it stands behind an error's line: R3", show_default=False),
    ] = None,
) -> None:
    """List every error the program can tell, or explain one: what it means, what to do.

    Example: `baycue errors R3`
    """
    from baycue.commands.errors import run_errors

    run_errors(code, terminal())


@trouble_app.command("rehearse-faults")
def rehearse_faults(
    only: Annotated[
        list[str] | None, typer.Option(help="This fault alone; may be given again")
    ] = None,
    out: Annotated[
        Path, typer.Option(help="Folder for results, one a fault; run again to go on")
    ] = OUT / "faults",
    anew: Annotated[bool, typer.Option(help="Also those that have a result already")] = False,
    show_list: Annotated[bool, typer.Option("--list", help="Only list the faults")] = False,
) -> None:
    """Put faults upon a live session and see what the golfer is told, and what is lost.

    Each in the middle of a session of its own, with real parts: a camera on the network, a sound
    server, a display, a disk, the plan's file, the processes. Needs Linux, PulseAudio and Xvfb;
    some faults need root, to mount a small disk. Fails if a fault ended badly.

    Example: `baycue rehearse-faults --only camera-stalled`
    """
    from baycue.commands.rehearse_faults import FaultsRequest, list_faults, run_rehearse_faults

    if show_list:
        list_faults(terminal())
    else:
        run_rehearse_faults(FaultsRequest(only or (), out, anew), terminal())


@trouble_app.command("rehearse-practice")
def rehearse_practice(
    balls: Annotated[int, typer.Option(min=1, help="How many; one every 20 s")] = 3,
    out: Annotated[Path, typer.Option(help="A new folder for films, views and pictures")] = OUT
    / "practice",
) -> None:
    """Practise with everything at once, and look over what was left.

    A live session with window, sound card, network camera and the coach's reference; films are kept
    and made small, keys pause, page through swings and write views meanwhile. Then every film, view
    and row is checked. Needs Linux, PulseAudio, Xvfb and xdotool. Fails if anything is wrong.

    Example: `baycue rehearse-practice --balls 6`
    """
    from baycue.commands.rehearse_practice import PracticeRequest, run_rehearse_practice

    run_rehearse_practice(PracticeRequest(balls, out), terminal())
