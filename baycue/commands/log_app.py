"""The front door to ``baycue log``: what was kept, and what is to become of it."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.terminal import terminal

log_app = typer.Typer(
    no_args_is_help=True,
    rich_markup_mode="markdown",
    help="Look at what `baycue live` has kept, judge it again, export it, check it, delete it. "
    "All of it stays on this machine.",
)

Keep = Annotated[
    Path | None, typer.Option(help="Folder that swings are kept in; else your own data folder")
]
Student = Annotated[str | None, typer.Option(help="Only this student, as kept")]
Yes = Annotated[bool, typer.Option("--yes", help="Do not ask")]


@log_app.command()
def sessions(
    keep: Keep = None,
    student: Student = None,
    last: Annotated[int, typer.Option(min=1, help="How many")] = 50,
) -> None:
    """List sessions, the newest first, with how their swings were answered.

    Example: `baycue log sessions --student Heron`
    """
    from baycue.commands.log_show import run_sessions

    run_sessions(keep, student, last, terminal())


@log_app.command()
def swings(
    session: Annotated[
        int | None, typer.Argument(help="A session's number; else the newest")
    ] = None,
    keep: Keep = None,
) -> None:
    """List a session's swings with their answers.

    Example: `baycue log swings 12`
    """
    from baycue.commands.log_show import run_swings

    run_swings(keep, session, terminal())


@log_app.command()
def export(
    file: Annotated[Path, typer.Argument(help="A new file: .csv, or .jsonl for JSON Lines")],
    keep: Keep = None,
    student: Student = None,
) -> None:
    """Write all swings and answers to a file for other programs.

    CSV has a line for each answer, JSON Lines an object for each swing. Nothing is overwritten.

    Example: `baycue log export swings.csv --student Heron`
    """
    from baycue.commands.log_show import run_export

    run_export(keep, file, student, terminal())


@log_app.command()
def note(
    session: Annotated[int, typer.Argument(help="A session's number, as `log sessions` lists it")],
    text: Annotated[str, typer.Argument(help="What to say of it")],
    keep: Keep = None,
) -> None:
    """Keep what the coach says of a session; it is in the report and in exports.

    Example: `baycue log note 12 "Ball too far back; next time alignment first"`
    """
    from baycue.commands.log_note import run_note

    run_note(keep, session, text, terminal())


@log_app.command()
def compact(
    keep: Keep = None,
    student: Student = None,
    session: Annotated[int | None, typer.Option(help="Only this session")] = None,
) -> None:
    """Make films small: H.264 at the same times, looked at before the old film goes.

    Takes only what the processor has left over, and stops while anybody plays. Ctrl-C loses
    nothing; run it again to go on.

    Example: `baycue log compact`
    """
    from baycue.commands.log_compact import run_compact

    run_compact(keep, student, session, terminal())


@log_app.command()
def rescore(
    plan: Annotated[Path, typer.Option("--plan", "-p", help="The plan to judge by")],
    keep: Keep = None,
    student: Annotated[
        str | None, typer.Option(help="Whose swings, as kept; else the plan's student")
    ] = None,
    session: Annotated[int | None, typer.Option(help="Only this session")] = None,
) -> None:
    """Judge kept swings by another plan, without their films, and say what changes.

    Nothing that is kept is changed.

    Example: `baycue log rescore --plan configs/left_hander_knee.yaml`
    """
    from baycue.commands.log_rescore import run_rescore

    run_rescore(keep, plan, student, session, terminal())


@log_app.command()
def check(
    keep: Keep = None,
    films: Annotated[bool, typer.Option("--films", help="Read every film from end to end")] = False,
    repair: Annotated[
        bool, typer.Option("--repair", help="Make whole what can be, and the log anew if damaged")
    ] = False,
) -> None:
    """Look whether everything that was kept is still there and whole.

    Exit code 6 if it is not. `--repair` deletes nothing: a damaged log is set aside.

    Example: `baycue log check --films`
    """
    from baycue.commands.log_check import run_check

    if not run_check(keep, films, repair, terminal()):
        raise typer.Exit(6)


@log_app.command("delete-student")
def delete_student(
    student: Annotated[str, typer.Argument(help="The student's name, as kept")],
    keep: Keep = None,
    yes: Yes = False,
) -> None:
    """Delete all that is kept of a student: films, sidecars, and every row in the log.

    Asks first. It cannot be undone. Exports and copies made elsewhere are not found.

    Example: `baycue log delete-student Heron`
    """
    from baycue.commands.log_delete import run_delete_student

    run_delete_student(keep, student, yes, terminal())


@log_app.command()
def retention(
    keep: Keep = None,
    days: Annotated[
        float | None, typer.Option(min=0, help="Films older than so many days may go")
    ] = None,
    gigabytes: Annotated[
        float | None, typer.Option(min=0, help="The oldest films beyond so much may go")
    ] = None,
    yes: Yes = False,
) -> None:
    """Say how much the films take up, and delete old ones by a rule, after asking.

    What was found in the swings and the log stay. Nothing is ever deleted without this command.

    Example: `baycue log retention --days 90 --gigabytes 50`
    """
    from baycue.commands.log_delete import run_retention

    run_retention(keep, days, gigabytes, yes, terminal())
