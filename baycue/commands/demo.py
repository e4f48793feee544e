"""Run the main job on a sample recording."""

import sysconfig
from pathlib import Path

from rich.console import Console

from baycue.commands.score import ScoreRequest, run_score
from baycue.errors import RecordingError

SAMPLE = Path("sample_recordings/knee_fail_30fps.mp4")
PLAN = Path("configs/right_hander_knee_head_tempo.yaml")


def run_demo(out: Path, hold_s: float, console: Console) -> None:
    """Score the sample as ``score`` would."""
    home = project_folder()
    console.print(f"Demo: {_short(home / SAMPLE)} against {_short(home / PLAN)}", soft_wrap=True)
    console.print("The golfer and all numbers are invented.")
    run_score(ScoreRequest(home / SAMPLE, home / PLAN, out, hold_s=hold_s), console)


def project_folder(sample: Path = SAMPLE) -> Path:
    """The folder that holds this sample, and the example plans.

    The folder we are in, else the checkout that this package runs from, else where pip puts what
    the wheel brings beside the package: all plans, and the demo's sample alone.

    Raises:
        RecordingError: none of them has it.
    """
    for folder in (Path.cwd(), Path(__file__).resolve().parents[2], *_installed()):
        if (folder / sample).exists():
            return folder
    raise RecordingError(
        f"{sample}: not found; run this in the project's folder, which holds the samples"
    )


def _installed() -> tuple[Path, ...]:
    """The environment's own folder and, for ``pip install --user``, the user's."""
    schemes = (sysconfig.get_default_scheme(), sysconfig.get_preferred_scheme("user"))
    return tuple(Path(sysconfig.get_path("data", scheme)) / "share/baycue" for scheme in schemes)


def _short(path: Path) -> Path:
    """As the user would write it here."""
    return path.relative_to(Path.cwd()) if path.is_relative_to(Path.cwd()) else path
