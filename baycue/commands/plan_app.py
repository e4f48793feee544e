"""The front door to ``baycue plan``: check, learn, measures and new."""

from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

plan_app = typer.Typer(
    no_args_is_help=True,
    rich_markup_mode="markdown",
    help="Make, check and learn plans: the coach's side. `baycue schema plan` prints their schema.",
)

_Like = Annotated[
    Path, typer.Option(help="A plan of the same golfer, camera and scale; its facts are kept")
]


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
    run_plan_learn(request, Console())
