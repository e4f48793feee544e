"""A practice with everything at once, and what came of it."""

from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from baycue.commands.demo import project_folder
from baycue.commands.log_show import say
from baycue.commands.soak import counting
from baycue.counted import counted
from baycue.errors import OutputError
from baycue.rehearsal.latency import spread
from baycue.rehearsal.practice_show import watching_order
from baycue.rehearsal.surroundings import missing
from baycue.rehearsal.whole_practice import PracticeMeans, PracticeSeen, practise

_SAMPLES = Path("sample_recordings")
_PLAN = Path("configs/right_hander_knee_head_tempo.yaml")
_REFERENCE = _SAMPLES / "knee_pass_30fps.mp4"


@dataclass(frozen=True, slots=True)
class PracticeRequest:
    """How many balls, and the folder for all that comes of it, which must be new."""

    balls: int
    out: Path


def run_rehearse_practice(request: PracticeRequest, console: Console) -> None:
    """Practise, look everything over, tell; OutputError if anything is not as it should be."""
    lacking = missing()
    if lacking:
        raise OutputError(lacking)
    home = project_folder()
    samples = home / _SAMPLES
    means = PracticeMeans(
        samples, home / _PLAN, home / _REFERENCE, counting(samples, watching_order)
    )
    with console.status(f"practising until {counted(request.balls, 'ball')} have been answered"):
        seen = practise(request.out.absolute(), means, request.balls)
    for line in _told(seen):
        say(console, line)
    if seen.wrong:
        raise OutputError(f"{request.out}: {counted(len(seen.wrong), 'thing')} wrong")


def _told(seen: PracticeSeen) -> list[str]:
    verdicts = ", ".join(f"{number} {outcome}" for number, outcome in seen.verdicts)
    software = spread([ms for ms in seen.answers_ms if ms is not None])
    figures = (
        f"{software.median:.0f} ms in the middle, {software.largest:.0f} at most"
        if software
        else "not measured"
    )
    return [
        f"answered: {verdicts} ({counted(seen.impacts, 'impact')} shown)",
        f"software latency: {figures}",
        *seen.written,
        *seen.told_at_the_end,
        *(f"the screen: {path}" for path in seen.pictures),
        *(f"WRONG: {line}" for line in seen.wrong),
    ]
