"""A swing named by a file: a kept one, or one in a recording."""

from functools import partial
from pathlib import Path

from baycue.errors import BaycueError
from baycue.keep.place import SIDECAR_SUFFIX
from baycue.plan.load import load_plan
from baycue.recording import score_recording
from baycue.replay.film import SwingFilm, film_of_recording
from baycue.replay.kept import film_of_sidecar
from baycue.replay.others import Other


def film_of(path: Path, plan: Path | None, number: int = 1) -> SwingFilm:
    """A kept swing by its sidecar, or one in a recording, scored by the plan.

    Raises BaycueError, in one line, where there is none.
    """
    if path.name.endswith(SIDECAR_SUFFIX):
        return film_of_sidecar(path)
    if plan is None:
        raise BaycueError(f"{path}: to replay a recording name its plan too (--plan)")
    swings = score_recording(path, load_plan(plan)).swings
    wanted = [s for s in swings if s.verdict.swing_number == number]
    if not wanted:
        have = ", ".join(str(s.verdict.swing_number) for s in swings) or "none"
        raise BaycueError(f"{path}: has no swing {number}; found: {have}")
    return film_of_recording(path, wanted[0])


def reference(path: Path, plan: Path | None, number: int = 1) -> Other:
    """The coach's reference, read when it is wanted."""
    return Other(path.name, partial(film_of, path, plan, number))


def read_reference(path: Path, plan: Path | None) -> Other:
    """The same, read now, for where nothing may be read in between; BaycueError if it cannot be."""
    film = film_of(path, plan)
    return Other(path.name, lambda: film)
