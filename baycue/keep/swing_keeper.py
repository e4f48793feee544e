"""Keeping swings while a session goes on, in a thread that gives way to everything else."""

import queue
import threading
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, replace
from functools import partial
from pathlib import Path

from baycue.counted import counted
from baycue.errors import OutputError
from baycue.keep import disk
from baycue.keep.calm import give_way
from baycue.keep.compact import how_small
from baycue.keep.filming import Span, film_swing, promised_film, span_of
from baycue.keep.folders import SessionFacts
from baycue.keep.keeper import ToldSwing
from baycue.keep.kept_session import KeptSession, Now, utc_now
from baycue.keep.place import FILM_SUFFIX, PARTIAL, SIDECAR_SUFFIX, Place
from baycue.keep.pseudonym import source_of_another, under_another_name
from baycue.keep.record import Film, Later
from baycue.keep.reel import Reel
from baycue.keep.small_maker import SmallMaker
from baycue.keep.standing import Standing
from baycue.keep.told_record import later_than, record_of
from baycue.pose.pose import Pose
from baycue.spine import ScoredSwing


@dataclass(frozen=True, slots=True)
class KeepingMeans:
    """The world, as far as keeping needs it.

    ``alias``: the name that the student is kept under, if not the plan's.  ``goes_on``: sessions
    that were cut off and go on.  ``makes_small``: films are made small while the session goes on.
    """

    now: Now = utc_now
    free_bytes: disk.FreeBytes = disk.free_bytes
    alias: str | None = None
    goes_on: tuple[SessionFacts, ...] = ()
    makes_small: bool = False


@dataclass(frozen=True, slots=True)
class _Stands:
    """How a student's session stands."""

    student: str
    standing: Standing


@dataclass(frozen=True, slots=True)
class _Finished:
    """A swing with what came after its verdict."""

    swing: ScoredSwing
    poses: tuple[Pose, ...]


class SwingKeeper:
    """A ``Keeper`` of files; ``reel``: the camera's last seconds."""

    def __init__(
        self,
        place: Place,
        source: str,
        reel: Reel,
        means: KeepingMeans | None = None,
    ) -> None:
        self.trouble = ""
        self._place, self._source, self._reel = place, source, reel
        self._means = means or KeepingMeans()
        self._small = SmallMaker(place, self._means.free_bytes)
        self._sessions: dict[str, KeptSession] = {}
        self._told: queue.SimpleQueue[ToldSwing | _Stands | None] = queue.SimpleQueue()
        self._news: queue.SimpleQueue[str] = queue.SimpleQueue()
        self._finished: dict[int, _Finished] = {}
        self._stands: _Stands | None = None
        self._written: _Stands | None = None
        self._closing = threading.Event()
        self._thread = threading.Thread(target=self._run, name="keeping", daemon=True)
        self._thread.start()

    def known(self, told: ToldSwing) -> None:
        """Have it kept soon."""
        self._told.put(told)

    def finished(self, swing: ScoredSwing, poses: tuple[Pose, ...]) -> None:
        """Tell how long to film, and what was seen meanwhile."""
        self._finished[swing.verdict.swing_number] = _Finished(swing, poses)

    def stands(self, student: str, standing: Standing) -> None:
        """Have it written soon, also while a swing is being filmed."""
        self._stands = _Stands(student, standing)
        self._told.put(self._stands)

    def let(self, free: bool) -> None:
        """Make films small only while nobody is judged."""
        self._small.let(free)

    def news(self) -> tuple[str, ...]:
        """Troubles that are new."""
        own = tuple(self._news.get() for _ in range(self._news.qsize()))
        return (*own, *self._small.news())

    def close(self) -> None:
        """Keep what waits, then end."""
        self._told.put(None)
        self._closing.set()
        self._thread.join()
        self._small.close()
        self._reel.close()

    @property
    def folders(self) -> tuple[Path, ...]:
        """Where its swings are, a folder for each student; from any thread."""
        return tuple(session.folder for session in tuple(self._sessions.values()))

    def summary(self) -> tuple[str, ...]:
        """What was kept where, after the end."""
        kept = tuple(
            f"{counted(session.kept, 'swing')} kept in {session.folder}"
            for session in self._sessions.values()
        )
        made, missed = self._small.made, self._reel.missed
        small = (f"{how_small(made)} meanwhile",) if made.films else ()
        fast = (f"{counted(missed, 'picture')} came too fast to be filmed",) if missed else ()
        return (*kept, *small, *fast)

    def _run(self) -> None:
        give_way()
        for facts in self._means.goes_on:
            self._try(partial(self._take_up, facts), "")
        while (told := self._told.get()) is not None:
            if not isinstance(told, _Stands):
                self._keep_or_tell(told)
            self._write_standing()
        for session in self._sessions.values():
            self._try(session.close, "")

    def _take_up(self, facts: SessionFacts) -> None:
        now = self._means.now
        self._sessions[facts.student] = KeptSession(
            self._place, facts.student, facts.source, now, facts
        )
        for film in sorted(self._sessions[facts.student].folder.glob(f"*{FILM_SUFFIX}")):
            self._make_small(film)

    def _write_standing(self) -> None:
        """How the session stands, unless that is written already."""
        told = self._stands
        if told is not None and told is not self._written:
            self._written = told
            self._try(partial(self._write, told), "")

    def _write(self, told: _Stands) -> None:
        """Where nothing can be written the swings tell of it."""
        source, alias = self._source, self._means.alias
        source = source_of_another(source, told.student) if alias else source
        session = self._session(alias or told.student, source)
        with suppress(OSError):
            session.stands(told.standing)

    def _keep_or_tell(self, told: ToldSwing) -> None:
        self._try(lambda: self._keep(told), f"swing {told.number} is not kept: ")

    def _try(self, work: Callable[[], None], before: str) -> None:
        """Whatever happens here, the session goes on."""
        try:
            work()
        except (OutputError, OSError) as error:
            self._tell_trouble(f"{before}{error}")
        except Exception as error:
            self._tell_trouble(f"{before}a fault of this program: {type(error).__name__}: {error}")

    def _keep(self, told: ToldSwing) -> None:
        source = self._source
        if self._means.alias is not None:
            source = source_of_another(source, told.student)
            told = under_another_name(told, self._means.alias)
        session = self._session(told.student, source)
        no_film = self._why_no_film()
        record = replace(session.stamped(record_of(told)), no_film=no_film)
        promised = None if no_film else promised_film(self._reel, self._span(told), told.number)
        session.keep_first(replace(record, film=promised))
        film, no_film = (None, no_film) if no_film else self._filmed(session, told)
        later = self._later(told)
        session.keep(replace(record, film=film, no_film=no_film, later=later))
        if film:
            self._make_small(session.film_path(told.number))
        self._finished.pop(told.number, None)
        self._tell_trouble("; ".join(filter(None, (session.log_trouble, no_film))))

    def _session(self, student: str, source: str) -> KeptSession:
        gone = self._sessions.get(student)
        if gone is not None and gone.is_gone:
            self._news.put(
                f"{gone.folder}: is gone, with what was kept there; kept in a new folder"
            )
            gone.let_go()
            del self._sessions[student]
        if student not in self._sessions:
            self._place.folder.mkdir(parents=True, exist_ok=True)
            now = self._means.now
            self._sessions[student] = KeptSession(self._place, student, source, now)
        return self._sessions[student]

    def _why_no_film(self) -> str:
        free = self._means.free_bytes(self._place.folder)
        if free < disk.LEAST_FOR_SIDECARS_BYTES:
            raise OutputError(f"the disk is full ({free / 1e6:.0f} MB left): nothing is kept")
        return disk.why_no_film(free)

    def _filmed(self, session: KeptSession, told: ToldSwing) -> tuple[Film | None, str]:
        """The film, or why there is none; a film that fails costs nothing else."""
        path = session.film_path(told.number)
        try:
            film = film_swing(self._reel, path, lambda: self._span(told), self._closing.is_set)
        except OutputError as error:
            with suppress(OSError):
                path.with_name(path.name + PARTIAL).unlink()
            return None, str(error)
        return film, "" if film else "the camera gave no picture that could be kept"

    def _make_small(self, film: Path) -> None:
        if self._means.makes_small:
            sidecar = film.with_name(film.stem + SIDECAR_SUFFIX)
            self._small.add(sidecar.relative_to(self._place.folder).as_posix())

    def _span(self, told: ToldSwing) -> Span:
        """As far as is known; asked again and again while the swing is being filmed."""
        self._write_standing()
        return span_of(self._latest(told), told.impact_ns)

    def _latest(self, told: ToldSwing) -> ScoredSwing | None:
        """The swing with its finish, if that has been seen; None if it could not be judged."""
        if not isinstance(told.swing, ScoredSwing):
            return None
        finished = self._finished.get(told.number)
        return finished.swing if finished else told.swing

    def _later(self, told: ToldSwing) -> Later:
        finished = self._finished.get(told.number)
        if not isinstance(told.swing, ScoredSwing) or finished is None:
            return Later()
        return later_than(told.swing, finished.swing, finished.poses)

    def _tell_trouble(self, trouble: str) -> None:
        if trouble and trouble != self.trouble:
            self._news.put(trouble)
        self.trouble = trouble
