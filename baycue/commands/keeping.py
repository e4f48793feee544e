"""What `baycue live` keeps, where, and what it says of that before it begins."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

from rich.console import Console

from baycue.capture.ring import Ring
from baycue.capture.shot import Shot
from baycue.commands.folders import refuse_unusable
from baycue.commands.log_compact import made_small
from baycue.commands.log_show import say as say_line
from baycue.counted import counted
from baycue.errors import BaycueError, OutputError
from baycue.keep.compact import large_films
from baycue.keep.disk import free_bytes, why_no_film
from baycue.keep.kept_session import Now, utc_now
from baycue.keep.log import SwingLog
from baycue.keep.passes import passed_before
from baycue.keep.place import Place, default_folder
from baycue.keep.pseudonym import file_of_another, refuse_unkeepable
from baycue.keep.recover import recover
from baycue.keep.reel import Reel
from baycue.keep.resume import CutOff, Resumed, resumed
from baycue.keep.standing import Standing
from baycue.keep.swing_keeper import KeepingMeans, SwingKeeper
from baycue.practice.history import RememberedPasses
from baycue.replay.kept import earlier_by_plan
from baycue.replay.others import Other

Say = Callable[[str], None]

CONSENT = (
    "Every swing is filmed and kept on this machine only, in {folder}; `--no-keep` keeps nothing. "
    "Film only who has agreed to it; children and other minors only if a parent or guardian has "
    "too. `baycue log delete-student` deletes all of a student."
)

LEFT = "{} still to be made small; Ctrl-C leaves the rest to `baycue log compact`"


@dataclass(frozen=True, slots=True)
class KeepRequest:
    """What the user asked for; ``folder``: None for the usual one.

    ``compact``: make films small between swings, and what is left when the session is over.
    """

    folder: Path | None = None
    off: bool = False
    alias: str | None = None
    compact: bool = True


class Keeping:
    """One session's keeping.

    Raises OutputError if a folder that was asked for cannot be used; where it is the usual one
    that cannot, the session goes on and says so.  BaycueError for one pseudonym for several
    students, or one that no plan can hold.
    """

    def __init__(
        self, request: KeepRequest, students: Sequence[str], say: Say, now: Now = utc_now
    ) -> None:
        if request.alias is not None and len(set(students)) > 1:
            raise BaycueError(
                "--keep-as: the plans are of several students, and one name for all would mix them"
            )
        if request.alias is not None:
            refuse_unkeepable(request.alias)
        self._alias, self._compact, self._now = request.alias, request.compact, now
        self.place = Place((request.folder or default_folder()).absolute())
        self.keeper: SwingKeeper | None = None
        try:
            refuse_unusable(self.place.folder, "--keep")
        except OutputError as error:
            if request.folder is not None:
                raise
            say(f"{error}. Until then nothing is kept.")
        names = [request.alias] if request.alias is not None else list(students)
        self.resumed = Resumed()
        self._begin(names, say)

    def _begin(self, names: Sequence[str], say: Say) -> None:
        say(CONSENT.format(folder=self.place.folder))
        recovered = recover(self.place)
        for line in recovered.lines:
            say(line)
        cut_off = [CutOff(facts, folder) for facts, folder in recovered.folders]
        self.resumed = resumed(cut_off, names, self._now())
        if self.resumed.facts:
            say(_goes_on(self.resumed.standing))
        if self.place.folder.exists():
            trouble = why_no_film(free_bytes(self.place.folder))
            if trouble:
                say(trouble)

    def open(self, shots: Ring[Shot], source: str) -> SwingKeeper:
        """The keeper, when the camera is there."""
        means = KeepingMeans(
            self._now,
            alias=self._alias,
            goes_on=self.resumed.facts,
            makes_small=self._compact,
        )
        self.keeper = SwingKeeper(self.place, source, Reel(shots), means)
        return self.keeper

    def earlier(self, student: str, plan: str, number: int) -> tuple[Other, ...]:
        """Kept swings of a student by a plan of that name, before a swing of this session.

        Raises KeptError for a log that cannot be read.
        """
        plan = file_of_another(plan, student) if self._alias else plan
        folders = self.keeper.folders if self.keeper else ()
        return earlier_by_plan(self.place, self._alias or student, plan, folders, number)

    def passed(self, students: Sequence[str], say: Say) -> RememberedPasses:
        """What the students passed in earlier sessions, under the names of their plans.

        A log that cannot be read ends no session: it is said, and progress counts this one alone.
        """
        if not self.place.log.exists():
            return RememberedPasses()
        try:
            with SwingLog(self.place.log) as log:
                each = [passed_before(log, s, self._alias) for s in dict.fromkeys(students)]
        except BaycueError as error:
            say(f"{error}. Progress counts this session alone.")
            return RememberedPasses()
        return RememberedPasses(tuple(answer for one in each for answer in one.kept))

    def sum_up(self, say: Say) -> None:
        """What was kept."""
        for line in self.keeper.summary() if self.keeper else ():
            say(line)

    def make_small(self, console: Console) -> None:
        """Make small what is left of this session's films; trouble is told and no more."""
        if self.keeper is None or not self._compact:
            return
        folders = [f.relative_to(self.place.folder).as_posix() for f in self.keeper.folders]
        if not folders:
            return
        try:
            with SwingLog(self.place.log) as log:
                names = large_films(log, folders)
            if names:
                say_line(console, LEFT.format(counted(len(names), "film")))
                made_small(self.place, names, console)
        except BaycueError as error:
            say_line(console, str(error))


def _goes_on(standing: Standing) -> str:
    """What is said when a session that was cut off goes on."""
    row = f", {standing.run_of_passes} in a row" if standing.run_of_passes > 1 else ""
    return (
        f"the session goes on where it was cut off: {standing.passes} of {standing.balls} "
        f"passed{row}; the next swing is number {standing.number + 1}"
    )
