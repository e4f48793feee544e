"""What several commands take, each said once: arguments, options, and the usual cautions."""

from pathlib import Path
from typing import Annotated

import typer

SAFETY = (
    "Before you swing: check that nobody, no screen and no camera stands within the club's "
    "reach. Stop if anything hurts. The facility's rules, local codes and your own coach or "
    "doctor come first."
)
"""The usual cautions, shown with every command that has to do with swinging."""

OUT = Path("baycue_output")

Recording = Annotated[
    Path,
    typer.Argument(
        help="A video of the swing: MP4, MOV, MKV, WebM or AVI, 24 frames a second or more; "
        "60 or more show the club better",
        show_default=False,
    ),
]
PlanFile = Annotated[
    Path, typer.Option("--plan", "-p", help="The coach's plan, YAML; examples lie in configs/")
]
Out = Annotated[
    Path, typer.Option(help="Where screen pictures and tones go if there is no display or sound")
]
JsonFile = Annotated[
    Path | None,
    typer.Option(
        "--json", help="Also write the scores as JSON, a new file; see `baycue schema score`"
    ),
]
AnnotatedClip = Annotated[
    Path | None,
    typer.Option("--annotate", help="Also write the clip, MP4, with body, shaft and verdict"),
]
Silent = Annotated[bool, typer.Option("--table-only", help="No big screen and no tone")]
Clips = Annotated[
    Path | None,
    typer.Option(help="Keep the rendered clips here and use those that are there already"),
]
Tones = Annotated[str, typer.Option(help="The voice of the answers; `baycue tones` lists them")]
Hold = Annotated[float, typer.Option(min=0.0, help="Seconds that each verdict stays on the screen")]
