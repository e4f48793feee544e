"""What is kept of one student's session: its folder of films and sidecars, its part of the log."""

from collections import deque
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime
from pathlib import Path

from baycue.errors import OutputError
from baycue.keep.entries import add_session, add_swing, end_session, resume_session
from baycue.keep.folders import SessionFacts, SessionFolder, utc
from baycue.keep.log import SwingLog
from baycue.keep.names import readable
from baycue.keep.place import FILM_SUFFIX, FIRST_SUFFIX, SIDECAR_SUFFIX, Place, swing_stem
from baycue.keep.record import SwingRecord
from baycue.keep.sidecar import packed, read_sidecar
from baycue.keep.standing import Standing, write_standing
from baycue.keep.whole import write_whole

Now = Callable[[], datetime]
LogWork = Callable[[SwingLog], object]


def utc_now() -> datetime:
    """The wall clock, which may be set back; nothing is ordered or named by it alone."""
    return datetime.now(UTC)


class KeptSession:
    """Used by one thread.  OutputError from the constructor if no folder can be made.

    ``goes_on``: a session that was cut off.

    ``log_trouble``: why the log is not kept, though the sidecars are; empty if it is.
    """

    def __init__(
        self,
        place: Place,
        student: str,
        source: str,
        now: Now = utc_now,
        goes_on: SessionFacts | None = None,
    ) -> None:
        self.kept = 0
        self.log_trouble = ""
        self._for_log: deque[LogWork] = deque()
        self._now = now
        self._place = place
        self._folder = SessionFolder(place, student, source, now(), goes_on)
        enter = add_session if goes_on is None else resume_session
        self._in_log(lambda log: enter(log, self._folder.facts))

    @property
    def folder(self) -> Path:
        """Where its files are."""
        return self._folder.path

    def film_path(self, number: int) -> Path:
        """Where a swing's film belongs."""
        return self.folder / (swing_stem(number) + FILM_SUFFIX)

    def keep_first(self, record: SwingRecord) -> None:
        """What is known at the verdict, at once, in case there is no later."""
        write_whole(self.folder / (swing_stem(record.number) + FIRST_SUFFIX), packed(record))

    def keep(self, record: SwingRecord) -> None:
        """The whole record; from now on the swing is kept."""
        stem = swing_stem(record.number)
        write_whole(self.folder / (stem + SIDECAR_SUFFIX), packed(record))
        self.kept += 1
        with suppress(OSError):
            (self.folder / (stem + FIRST_SUFFIX)).unlink(missing_ok=True)
        path = self.folder / (stem + SIDECAR_SUFFIX)
        self._in_log(
            lambda log: add_swing(log, self._folder.facts, record),
            # Not the record itself, should many have to wait.
            lambda log: add_swing(log, self._folder.facts, read_sidecar(path)),
        )

    def stands(self, standing: Standing) -> None:
        """So that it can go on from there; OSError if it cannot be written."""
        write_standing(self.folder, standing)

    def stamped(self, record: SwingRecord) -> SwingRecord:
        """The record with this session's name and the time of day."""
        plan = replace(record.plan, name=readable(record.plan.name))
        return replace(record, session=self.folder.name, at_utc=utc(self._now()), plan=plan)

    @property
    def is_gone(self) -> bool:
        """Whether somebody has taken its folder away."""
        return not self.folder.is_dir()

    def let_go(self) -> None:
        """Of a folder that is gone."""
        self._folder.close(done=False)

    def close(self) -> None:
        """The session is over; what the log lacks is put into it at the next start."""
        self._in_log(lambda log: end_session(log, self._folder.facts, utc(self._now()), False))
        self._folder.close(done=not self.log_trouble and not self._left_over())

    def _left_over(self) -> bool:
        return any(self.folder.glob(f"*{FIRST_SUFFIX}"))

    def _in_log(self, work: LogWork, another_time: LogWork | None = None) -> None:
        """The log fails alone: the sidecars hold all that is in it.

        What failed is done before what is next, ``another_time`` for ``work``.
        """
        try:
            with SwingLog(self._place.log, create=True) as log:
                while self._for_log:
                    self._for_log[0](log)
                    self._for_log.popleft()
                work(log)
            self.log_trouble = ""
        except OutputError as error:
            self.log_trouble = str(error)
            self._for_log.append(another_time or work)
