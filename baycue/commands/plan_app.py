"""The front door to ``baycue plan``: check, learn, measures and new."""

from pathlib import Path
from typing import Annotated

import typer

from baycue.commands.terminal import terminal
from baycue.errors import BaycueError

plan_app = typer.Typer(
    no_args_is_help=True,
    rich_markup_mode="markdown",
    help="Make, check and learn plans: the coach's side. `baycue schema plan` prints their schema.",
)

_Like = Annotated[
    Path, typer.Option(help="A plan of the same golfer, camera and scale; its facts are kept")
]


@plan_app.command()
def new(
    file: Annotated[Path, typer.Argument(help="The plan to write, a new file")],
    student: Annotated[str, typer.Option(help="The student's name")] = "Student",
    handedness: Annotated[str, typer.Option(help="right or left")] = "right",
    stature: Annotated[str, typer.Option(help="Body height with its unit")] = "175 cm",
    view: Annotated[str, typer.Option(help="face-on or down-the-line")] = "face-on",
) -> None:
    """Write a plan to start from, with a comment on what each line means.

    Nothing is ever overwritten.

    Example: `baycue plan new heron.yaml --student Heron --stature "5 ft 10 in"`
    """
    from baycue.commands.plan_new import NewPlanRequest, run_plan_new

    run_plan_new(NewPlanRequest(file, student, handedness, stature, view), terminal())


@plan_app.command()
def check(
    files: Annotated[list[Path], typer.Argument(help="Plan files")],
    fps: Annotated[int, typer.Option(min=24, help="The camera's frames a second")] = 30,
) -> None:
    """Say what is wrong in plan files, and what is finer than the bay can tell.

    A mistake is told with file, line, key, what is allowed and the nearest guess, and ends with
    exit code 4. A warning does not: the plan works, but its threshold or tolerance is finer than
    the truth bench's error, or one camera cannot be trusted for it.

    A value within 1.3 sigmas of its bound is "too close to call"; a target's own `band` sets
    another number. Within one sigma, 98.9 % (knee past ankle) and 98.5 % (head rise) of the
    called answers were right on the bench's 200 swings of seed 1 (26 November 2026), where 99 %
    are asked; within 1.3, chosen on those same swings, 99.4 and 99.2 %.

    Example: `baycue plan check configs/*.yaml --fps 60`
    """
    from baycue.commands.plan_check import run_plan_check

    run_plan_check(files, fps, terminal())


@plan_app.command()
def measures(
    view: Annotated[str | None, typer.Option(help="face-on or down-the-line; else both")] = None,
) -> None:
    """Tell all about every measure that a plan may name: definition, sign, unit, views, error.

    Example: `baycue plan measures --view face-on`
    """
    from baycue.commands.plan_measures import run_plan_measures
    from baycue.plan.stance import View
    from baycue.plan.words import choose

    try:
        chosen = choose(view, View, "view") if view is not None else None
    except ValueError as error:
        raise BaycueError(str(error)) from None
    run_plan_measures(chosen, terminal())


@plan_app.command()
def learn(
    good: Annotated[
        list[Path], typer.Option(help="A recording of good swings; give it again for each")
    ],
    like: _Like,
    out: Annotated[Path, typer.Option(help="The proposal to write, a new file")],
    poor: Annotated[
        list[Path] | None, typer.Option(help="A recording of poor swings; give it again for each")
    ] = None,
    measure: Annotated[
        list[str] | None, typer.Option(help="Look at this measure only; give it again for each")
    ] = None,
    share: Annotated[
        float, typer.Option(min=0.5, max=0.99, help="Of swings like the good ones that shall pass")
    ] = 0.9,
) -> None:
    """Propose thresholds from recordings of good swings, and say what tells them from poor ones.

    Takes every measure at its usual moment, prints the spread and whether good and poor differ,
    and writes a new plan in which each threshold is a comment until the coach takes it. Three
    good swings are the least. Nothing is ever overwritten.

    Example: `baycue plan learn --good a.mp4 --good b.mp4 --poor c.mp4 --like heron.yaml --out
    heron_proposal.yaml`
    """
    from baycue.commands.plan_learn import LearnRequest, run_plan_learn

    request = LearnRequest(good, poor or (), like, out, measure or (), share)
    run_plan_learn(request, terminal())


@plan_app.command()
def schema() -> None:
    """Print the JSON Schema of plans, for editors that check YAML while it is typed.

    Example: `baycue plan schema > plan.schema.json`
    """
    from baycue.commands.schema import run_schema

    run_schema("plan")
