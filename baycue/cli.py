"""The front door: every command, its help, and one line for every error."""

import os
import sys
from collections.abc import Sequence
from importlib.metadata import version
from typing import Annotated

import typer

from baycue.commands.after_app import after_app
from baycue.commands.before_app import before_app
from baycue.commands.bench_app import bench_app
from baycue.commands.endure_app import endure_app
from baycue.commands.help_page import add_pages
from baycue.commands.live_app import live_app
from baycue.commands.log_app import log_app
from baycue.commands.machine_app import machine_app
from baycue.commands.options import SAFETY
from baycue.commands.plan_app import plan_app
from baycue.commands.score_app import score_app
from baycue.commands.terminal import show_whatever_comes
from baycue.commands.trouble_app import trouble_app
from baycue.doctor.system_libraries import missing_library
from baycue.errors import BaycueError, NoMemoryError, NotInstalledError, OutputError

_HAND_OVER_S = 0.0005
_PARTS = (
    score_app,
    after_app,
    before_app,
    bench_app,
    live_app,
    machine_app,
    endure_app,
    trouble_app,
)
"""In the order that help lists their commands."""

app = typer.Typer(
    name="baycue",
    no_args_is_help=True,
    add_completion=True,
    rich_markup_mode="markdown",
    pretty_exceptions_enable=False,
    context_settings={"help_option_names": ["-h", "--help"]},
    help=f"""Watch a golf swing and say whether it met the coach's movement goals.

First look: `baycue demo` scores a sample recording; no camera is needed.

Your own: `baycue score swing.mp4 --plan configs/right_hander_knee_head_tempo.yaml`

{SAFETY}
""",
    epilog="Exit codes: 0 done, 2 wrong use, 3 recording, 4 plan, 5 what the picture shows, "
    "6 a result cannot be written.",
)


def _tell_version(wanted: bool) -> None:
    if wanted:
        typer.echo(f"baycue {version('baycue')}")
        raise typer.Exit


@app.callback()
def before_any_command(
    tell_version: Annotated[
        bool,
        typer.Option("--version", callback=_tell_version, is_eager=True, help="Tell which version"),
    ] = False,
) -> None:
    """Nothing is common to all commands but this option."""


app.registered_commands += [command for part in _PARTS for command in part.registered_commands]
app.add_typer(log_app, name="log")
app.add_typer(plan_app, name="plan")

add_pages(app)


def main(arguments: Sequence[str] | None = None) -> None:
    """Run the command line; an error is one line and an exit code, never a traceback.

    ``arguments``: those after the program's name; None takes the process's own.
    """
    # While one thread scores a swing another finds poses; Python's usual 5 ms between hand-overs
    # is a quarter of a pose.
    sys.setswitchinterval(_HAND_OVER_S)
    show_whatever_comes(sys.stdout)
    try:
        app(args=arguments)
    except BaycueError as error:
        _fail(error)
    except MemoryError:
        _fail(NoMemoryError("no memory is left; end other programs and start again"))
    except BrokenPipeError:  # whoever reads our output has seen enough
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        sys.exit(1)
    except ImportError as error:
        if missing_library(str(error)) is None:
            raise
        _fail(NotInstalledError(str(error)))
    except OSError as error:  # a full disk, a folder taken away
        _fail(OutputError(str(error)))


def _fail(error: BaycueError) -> None:
    """Its text, and behind it the code that ``baycue errors`` explains."""
    lacking = missing_library(str(error))
    print(f"baycue: {lacking or error} [{error.code}]", file=sys.stderr)
    sys.exit(error.exit_code)


if __name__ == "__main__":
    main()
