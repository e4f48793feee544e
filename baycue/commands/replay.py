"""See a swing again: a kept one, or one in a recording; beside another if asked."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from pathlib import Path

from rich.console import Console

from baycue.commands.named_swing import film_of, reference
from baycue.cues.display import open_window
from baycue.errors import BaycueError, KeptError
from baycue.keep.log import SwingLog
from baycue.keep.pages import films_before, student_id, swing_of_sidecar
from baycue.keep.place import SIDECAR_SUFFIX, Place
from baycue.plan.load import load_plan
from baycue.plan.words import choose_checkpoint
from baycue.replay.controls import jumped
from baycue.replay.export import export_film, export_gif, export_still
from baycue.replay.kept import kept_other
from baycue.replay.others import Other, Others, others_of
from baycue.replay.player import SPEEDS
from baycue.replay.showing import Showing, Together, downswing_ns, showing
from baycue.replay.window import run_window

_NEWEST = "SELECT sidecar FROM swings WHERE film IS NOT NULL ORDER BY id DESC LIMIT 1"


@dataclass(frozen=True, slots=True)
class ReplayRequest:
    """What the user asked for.

    ``swing``: a sidecar or a recording; None for the newest kept swing in ``place``.
    ``against``: the same for the swing to compare with, scored by ``against_plan`` if it is a
    recording (else by ``plan``).  ``film``, ``gif``, ``still``: files to
    write instead of opening a window.  ``blur_faces``: no head can be recognised in any of it.
    """

    swing: Path | None
    against: Path | None
    plan: Path | None
    against_plan: Path | None
    number: int
    place: Place
    out: Path
    speed: float = 0.25
    at: str | None = None
    together: str = Together.BESIDE.value
    downswing: bool = False
    film: Path | None = None
    gif: Path | None = None
    still: Path | None = None
    blur_faces: bool = False


def run_replay(request: ReplayRequest, console: Console) -> None:
    """Show it, or write it; raises BaycueError with one clear line."""

    def say(line: str) -> None:
        console.print(line, soft_wrap=True, highlight=False, markup=False)

    shown, others = _asked(request)
    written = _written(request, shown)
    for path in written:
        say(f"written to {path}")
    if written:
        return
    window, why = open_window()
    if window is None:
        raise BaycueError(f"{why}; write a file instead with --film, --gif or --still")
    say(window.describe())
    try:
        run_window(window, shown, request.out, "replay", say, others)
    finally:
        window.close()


def _asked(request: ReplayRequest) -> tuple[Showing, Others]:
    together = _together(request.together)
    if request.speed not in SPEEDS:
        allowed = ", ".join(f"{speed:g}" for speed in SPEEDS)
        raise BaycueError(f"--speed {request.speed:g}: is none of {allowed}")
    path = request.swing or newest(request.place)
    film = replace(film_of(path, request.plan, request.number), blur_faces=request.blur_faces)
    others = others_of(_reference(request), earlier(request.place, path, request.plan))
    if request.blur_faces:
        others = replace(others, all_of_them=tuple(map(_blurred, others.all_of_them)))
    other = others.all_of_them[0].film() if others.at == 0 else None
    shown = replace(showing(film, other, request.speed), together=together)
    shown = replace(shown, other_name=others.all_of_them[0].name if other else "")
    if request.downswing:
        shown = replace(shown, player=shown.player.looping(downswing_ns(film)))
    return (_standing(shown, request.at) if request.at else shown), others


def _blurred(other: Other) -> Other:
    return Other(other.name, lambda: replace(other.film(), blur_faces=True))


def _reference(request: ReplayRequest) -> Other | None:
    """What was named by ``--against``."""
    if request.against is None:
        return None
    return reference(request.against, request.against_plan or request.plan, request.number)


def earlier(place: Place, path: Path, plan: Path | None) -> tuple[Other, ...]:
    """Kept swings of the same student before the one at ``path``; all, if that is a recording."""
    if not place.log.exists():
        return ()
    with SwingLog(place.log) as log:
        before: int | None = None
        if path.name.endswith(SIDECAR_SUFFIX):
            found = swing_of_sidecar(log, _in_log(place, path))
            before, student = found or (None, None)
        else:
            student = student_id(log, load_plan(plan).student) if plan else None
        rows = films_before(log, student, before) if student is not None else ()
    return tuple(kept_other(place, row) for row in rows)


def _in_log(place: Place, path: Path) -> str:
    """A sidecar's name in the log; empty for one that is not of this place."""
    with suppress(ValueError):
        return path.absolute().relative_to(place.folder).as_posix()
    return ""


def _together(word: str) -> Together:
    for way in Together:
        if way.value == word.strip().lower():
            return way
    allowed = ", ".join(way.value for way in Together)
    raise BaycueError(f'--together "{word}": is none of {allowed}')


def _standing(shown: Showing, at: str) -> Showing:
    try:
        name = choose_checkpoint(at)
    except ValueError as error:
        raise BaycueError(f"--at {error}") from None
    if name not in shown.film.checkpoints_ns:
        known = ", ".join(each.value for each in shown.film.checkpoints_ns)
        raise BaycueError(f"--at {name.value}: was not found in this swing; found: {known}")
    return jumped(shown, name)


def newest(place: Place) -> Path:
    """The newest swing with a film; KeptError if there is none."""
    with SwingLog(place.log) as log:
        rows = log.rows(_NEWEST)
    if not rows:
        raise KeptError(f"{place.folder}: no swing with a film has been kept there yet")
    return place.inside(rows[0]["sidecar"])


def _written(request: ReplayRequest, shown: Showing) -> list[Path]:
    ways: list[tuple[Path | None, Callable[[Showing, Path], None]]] = [
        (request.film, export_film),
        (request.gif, export_gif),
        (request.still, export_still),
    ]
    asked = [(path, write) for path, write in ways if path is not None]
    for path, write in asked:
        write(shown, path)
    return [path for path, _ in asked]
