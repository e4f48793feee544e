"""Making films small while nobody plays."""

import threading
import time
from collections.abc import Callable, Sequence
from pathlib import Path

from rich.console import Console

from baycue.commands.log_show import kept_place, say, student_named
from baycue.commands.progress import progress_bar
from baycue.counted import counted
from baycue.errors import BaycueError, KeptError
from baycue.keep.calm import give_way_to_all
from baycue.keep.compact import Compacted, anybody_plays, compact, how_small, large_films
from baycue.keep.log import SwingLog
from baycue.keep.place import Place

_LOOK_S = 0.5
_PLAYS = "a session is going on: films are made small when nobody plays"


class Calm:
    """Whether work may go on: nobody plays, looked at twice a second, and nobody stopped it."""

    def __init__(self, place: Place, clock: Callable[[], float] = time.monotonic) -> None:
        self._place, self._clock = place, clock
        self._stopped = threading.Event()
        self._next_look_s = clock()
        self.somebody_plays = False

    def stop(self) -> None:
        """From any thread."""
        self._stopped.set()

    def __call__(self) -> bool:
        """Cheap enough to be asked before each picture."""
        now_s = self._clock()
        if now_s >= self._next_look_s:
            self._next_look_s = now_s + _LOOK_S
            self.somebody_plays = anybody_plays(self._place)
        return not (self.somebody_plays or self._stopped.is_set())


def run_compact(
    folder: Path | None, student: str | None, session: int | None, console: Console
) -> None:
    """Tell what is gained; KeptError if a session is going on or films were in trouble."""
    place = kept_place(folder)
    with SwingLog(place.log) as log:
        whose = student_named(log, student)
        rows = log.rows(
            "SELECT folder FROM sessions WHERE (? IS NULL OR student_id = ?) "
            "AND (? IS NULL OR id = ?)",
            *(whose, whose, session, session),
        )
        if session is not None and not rows:
            raise KeptError(f"{place.log}: there is no such session {session}")
        names = large_films(log, [str(row["folder"]) for row in rows])
    done = made_small(place, names, console)
    if done.lines:
        left = counted(len(done.lines), "film was left as it is", "films were left as they are")
        raise BaycueError(left)


def made_small(place: Place, names: Sequence[str], console: Console) -> Compacted:
    """Make these swings' films small, and say so; Ctrl-C ends it in good order."""
    if not names:
        say(console, "no film is to be made small")
        return Compacted()
    if anybody_plays(place):
        raise KeptError(_PLAYS)
    calm = Calm(place)
    with progress_bar(console) as bar:
        task = bar.add_task("making films small", total=len(names))
        done = _in_a_thread(place, names, calm, lambda count: bar.update(task, completed=count))
    _tell(done, len(names), calm, console)
    return done


def _in_a_thread(
    place: Place, names: Sequence[str], calm: Calm, on_film: Callable[[int], None]
) -> Compacted:
    """A thread of its own, since one that gives way cannot take it back."""
    found: list[Compacted | BaycueError] = []

    def work() -> None:
        give_way_to_all()
        try:
            found.append(compact(place, names, calm, on_film))
        except BaycueError as error:
            found.append(error)

    thread = threading.Thread(target=work, name="making small")
    thread.start()
    while thread.is_alive():
        try:
            thread.join()
        except KeyboardInterrupt:
            calm.stop()
    (result,) = found
    if isinstance(result, BaycueError):
        raise result
    return result


def _tell(done: Compacted, of_all: int, calm: Calm, console: Console) -> None:
    for line in done.lines:
        say(console, line)
    say(console, how_small(done, of_all))
    if calm.somebody_plays:
        say(console, _PLAYS)
    elif done.stopped:
        say(console, "stopped; `baycue log compact` goes on with the rest")
