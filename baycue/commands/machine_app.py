"""This machine: fit or not, its devices, its tones, what ships."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.options import OUT, Out
from baycue.commands.terminal import terminal

machine_app = typer.Typer()


@machine_app.command()
def doctor(
    keep: Annotated[
        Path | None,
        typer.Option(help="Where swings would be kept; else the usual place", show_default=False),
    ] = None,
) -> None:
    """Look whether this machine is fit for a session, and say what to do where it is not.

    Python and libraries, pose model, screen, sound, cameras, disk. Nothing is changed. Exit
    code 2 if anything must be mended.

    Example: `baycue doctor`
    """
    from baycue.commands.doctor import run_doctor
    from baycue.errors import BaycueError
    from baycue.keep.place import default_folder

    if not run_doctor(keep or default_folder(), terminal()).ready:
        raise typer.Exit(BaycueError.exit_code)


@machine_app.command()
def licences(
    as_json: Annotated[
        bool, typer.Option("--json", help="As a bill of materials: CycloneDX 1.6")
    ] = False,
) -> None:
    """List what ships with Baycue and which packages it needs, each with its licence.

    Rows marked (!) ask for more than Baycue's own licence when they are passed on. The list was
    made on Linux; versions are what pip chose here.

    Example: `baycue licences`
    """
    from baycue.commands.licences import run_licences

    run_licences(as_json, terminal())


@machine_app.command("tones")
def hear_tones(
    voice: Annotated[
        str | None, typer.Argument(help="Whose tones; without one, all voices are listed")
    ] = None,
    out: Out = OUT,
) -> None:
    """Play a voice's three tones: pass, fail, too close to call.

    Where there is no sound card, each becomes a WAV.

    Example: `baycue tones standard`
    """
    from baycue.commands.tones import run_tones

    run_tones(voice, out, terminal())


@machine_app.command()
def devices() -> None:
    """List the cameras and sound devices of this machine.

    Example: `baycue devices`
    """
    from baycue.commands.devices import run_devices

    run_devices(terminal())
