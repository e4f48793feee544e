"""Run the main job on a sample recording."""

from pathlib import Path

from rich.console import Console

from baycue.commands.score import ScoreRequest, run_score
from baycue.errors import RecordingError

SAMPLE = Path("sample_recordings/knee_fail_30fps.mp4")
PLAN = Path("configs/right_hander_knee_head_tempo.yaml")


def run_demo(out: Path, hold_s: float, console: Console) -> None:
    """Score the sample as ``score`` would."""
    home = project_folder()
    console.print(f"Demo: {SAMPLE} against {PLAN}", soft_wrap=True)
    console.print("The golfer and all numbers are invented.")
    run_score(ScoreRequest(home / SAMPLE, home / PLAN, out, hold_s=hold_s), console)


def project_folder() -> Path:
    """The checkout: the folder we are in, else the one this package runs from."""
    for folder in (Path.cwd(), Path(__file__).resolve().parents[2]):
        if (folder / SAMPLE).exists():
            return folder
    raise RecordingError(
        f"{SAMPLE}: not found; run the demo in the project's folder, which holds the samples"
    )
