"""The front door: every command, its help, and one line for every error."""

import sys
from pathlib import Path
from typing import Annotated

import typer
from rich.console import Console

from baycue.errors import BaycueError

SAFETY = (
    "Before you swing: check that nobody, no screen and no camera stands within the club's "
    "reach. Stop if anything hurts. The facility's rules, local codes and your own coach or "
    "doctor come first."
)

app = typer.Typer(
    name="baycue",
    no_args_is_help=True,
    add_completion=True,
    rich_markup_mode="rich",
    pretty_exceptions_enable=False,
    help="Watch a golf swing and say whether it met the coach's movement goals.\n\n" + SAFETY,
)

Recording = Annotated[Path, typer.Argument(help="A video of the swing, 24 frames a second or more")]
PlanFile = Annotated[
    Path, typer.Option("--plan", "-p", help="The coach's plan, YAML; examples lie in configs/")
]
Out = Annotated[
    Path, typer.Option(help="Where screen pictures and tones go if there is no display or sound")
]
JsonFile = Annotated[
    Path | None, typer.Option("--json", help="Also write the scores as JSON; a new file")
]
AnnotatedClip = Annotated[
    Path | None, typer.Option("--annotate", help="Also write the clip with body, shaft and verdict")
]
Silent = Annotated[bool, typer.Option("--table-only", help="No big screen and no tone")]
Hold = Annotated[float, typer.Option(min=0.0, help="Seconds that each verdict stays on the screen")]

_OUT = Path("baycue_output")


@app.command()
def score(
    recording: Recording,
    plan: PlanFile,
    out: Out = _OUT,
    json_file: JsonFile = None,
    annotate: AnnotatedClip = None,
    table_only: Silent = False,
    hold: Hold = 3.0,
) -> None:
    """Score a recorded swing against a plan.

    Finds each swing, its club and its checkpoints, measures what the plan asks and answers
    pass, fail or too close to call, on the screen and by ear. Example:

        baycue score swing.mp4 --plan configs/right_hander_knee_head_tempo.yaml
    """
    from baycue.commands.score import ScoreRequest, run_score

    request = ScoreRequest(recording, plan, out, json_file, annotate, table_only, hold)
    run_score(request, Console())


@app.command()
def demo(out: Out = _OUT, hold: Hold = 3.0) -> None:
    """Score a sample recording that comes with the project: no camera needed."""
    from baycue.commands.demo import run_demo

    run_demo(out, hold, Console())


@app.command("make-recording")
def make_recording(
    recipe: Annotated[str | None, typer.Argument(help="A recipe's name; none lists them")] = None,
    out: Annotated[Path, typer.Option(help="Folder for the clip and its truth")] = _OUT,
    everything: Annotated[bool, typer.Option("--all", help="Every recipe")] = False,
) -> None:
    """Make recordings of invented golfers whose exact truth is written beside them."""
    from baycue.commands.make_recording import run_make_recording

    run_make_recording(recipe, everything, out, Console())


@app.command()
def schema(
    of: Annotated[str, typer.Argument(help="plan: the coach's YAML; score: what --json writes")],
) -> None:
    """Print the JSON Schema of plans or of scores, for editors and other programs."""
    from baycue.commands.schema import run_schema

    run_schema(of)


@app.command()
def benchmark(recording: Recording, plan: PlanFile) -> None:
    """Measure speed: the whole spine against the bare pose call on the same frames."""
    from baycue.commands.benchmark import run_benchmark

    run_benchmark(recording, plan, Console())


def main() -> None:
    """Run the command line; a BaycueError is one line and an exit code, never a traceback."""
    try:
        app()
    except BaycueError as error:
        print(f"baycue: {error}", file=sys.stderr)
        sys.exit(error.exit_code)
    except KeyboardInterrupt:
        sys.exit(130)
