"""The options of ``baycue live``, in the order that its help lists them."""

from pathlib import Path
from typing import Annotated

import typer

Source = Annotated[
    str,
    typer.Option(
        "--source",
        "-s",
        help="A webcam's number or name (`baycue devices`), the address of a phone or network "
        "camera (http, rtsp), or a recording to play as if live",
    ),
]
Plan = Annotated[
    list[Path],
    typer.Option("--plan", "-p", help="The coach's plan; give several to step through by N"),
]
Size = Annotated[str, typer.Option(help="Picture size to ask a webcam for")]
Fps = Annotated[float, typer.Option(min=1, help="Frames a second to ask a webcam for")]
Exposure = Annotated[
    float | None, typer.Option(min=0.01, help="Fixed exposure of a webcam, milliseconds")
]
Mjpg = Annotated[bool, typer.Option(help="Ask a webcam for packed pictures (MJPG)")]
Feedback = Annotated[
    str, typer.Option(help="at-once, delay:SECONDS after the verdict, or on-request (key A)")
]
Window = Annotated[bool, typer.Option(help="Show the big screen")]
Display = Annotated[int, typer.Option(min=0, help="Which screen, from 0")]
FullScreen = Annotated[bool, typer.Option("--full-screen", help="Fill the screen")]
Sound = Annotated[bool, typer.Option(help="Sound the tones")]
SoundDevice = Annotated[
    str | None, typer.Option(help="Number or name (`baycue devices`); else the system's own")
]
Volume = Annotated[float, typer.Option(min=0.0, max=1.0, help="Of the tones, 0 to 1")]
Microphone = Annotated[
    str | None,
    typer.Option(help="Number, name or `default`: tells a ball struck from a practice swing"),
]
SkipSetUp = Annotated[
    bool, typer.Option("--skip-set-up", help="Leave out the set-up check at the start")
]
Keep = Annotated[
    Path | None,
    typer.Option(help="Folder that swings are kept in; else your own data folder"),
]
NoKeep = Annotated[bool, typer.Option("--no-keep", help="Film and keep nothing")]
KeepAs = Annotated[str | None, typer.Option(help="Keep the student under this name, a pseudonym")]
Compact = Annotated[
    bool, typer.Option(help="Make films small between swings, and at the end what is left")
]
Vitals = Annotated[
    Path | None,
    typer.Option(help="A new file for a line every 5 s: frames, poses, latencies, memory"),
]
Out = Annotated[Path, typer.Option(help="Where the keys M, I and T write to")]
Against = Annotated[
    Path | None,
    typer.Option(help="The coach's reference for the replay, a kept swing or a recording"),
]
AgainstPlan = Annotated[
    Path | None, typer.Option(help="What a recorded reference is scored by, if another plan")
]
BlurFaces = Annotated[
    bool,
    typer.Option("--blur-faces", help="Make heads unrecognisable in what M, I and T write"),
]
