"""Films made small while the session goes on, so that at its end hardly any is left.

One after another, in a process of its own that gives way to everything and stands still while a
golfer stands to the ball, swings or is being judged.  Whatever happens to it, films stay as they
were taken, or are whole as they were made: the session's end goes on with what is left.
"""

import multiprocessing
import queue
import threading
from multiprocessing.connection import Connection
from multiprocessing.context import SpawnProcess

from baycue.interrupts_held import interrupts_held
from baycue.keep import disk
from baycue.keep.calm import give_way_to_all
from baycue.keep.compact import Compacted
from baycue.keep.place import Place
from baycue.keep.small_process import Turn, make_films_small

_AGAIN_S, _LOOK_S = 1.0, 0.2
_ENDS_S = 2.0
"""So long it may take to let go of a film; after that it is killed, which costs no film."""
HAS_DIED = "films stay large until the session is over: the process that makes them small has died"
STAYS_LARGE = "{}; such films stay large until the session is over"


class SmallMaker:
    """Makes films small as they are named; nothing but ``close`` ever waits.

    While the disk is low none is begun.  ``made``: how many so far, and their bytes.
    """

    def __init__(self, place: Place, free_bytes: disk.FreeBytes = disk.free_bytes) -> None:
        self.made = Compacted()
        self._place, self._free_bytes = place, free_bytes
        self._names: queue.SimpleQueue[str | None] = queue.SimpleQueue()
        self._news: queue.SimpleQueue[str] = queue.SimpleQueue()
        self._over = threading.Event()
        # A fork would carry the pose model's and the sound card's threads' locks along.
        self._context = multiprocessing.get_context("spawn")
        # Not an event: one that a killed process holds would never be let go of.
        self._turn = self._context.RawValue("i", Turn.WAIT)
        self._thread: threading.Thread | None = None
        self._process: SpawnProcess | None = None

    @property
    def process_id(self) -> int | None:
        """Of the process, once there is one."""
        return self._process.pid if self._process else None

    def add(self, name: str) -> None:
        """Have the film of a swing made small, by its sidecar's name in the log."""
        if self._thread is None:
            self._thread = threading.Thread(target=self._run, name="small films", daemon=True)
            self._thread.start()
        self._names.put(name)

    def let(self, free: bool) -> None:
        """Whether nobody is being judged; while somebody is, the process stands still."""
        if not self._over.is_set():
            self._turn.value = Turn.GO_ON if free else Turn.WAIT

    def news(self) -> tuple[str, ...]:
        """Of trouble, each kind once."""
        return tuple(self._news.get() for _ in range(self._news.qsize()))

    def close(self) -> None:
        """Let go of the film that is being made small, and end the process."""
        self._over.set()
        self._turn.value = Turn.END
        self._names.put(None)
        if self._thread is not None:
            self._thread.join()

    def _run(self) -> None:
        give_way_to_all()
        wire = self._begun()
        try:
            while (name := self._names.get()) is not None and not self._over.is_set():
                self._make(wire, name)
            wire.send(None)
        except (EOFError, OSError):
            if not self._over.is_set():
                self._news.put(HAS_DIED)
        finally:
            self._end(wire)

    def _begun(self) -> Connection:
        wire, theirs = self._context.Pipe()
        self._process = self._context.Process(
            target=make_films_small,
            args=(theirs, self._place, self._turn),
            name="films",
            daemon=True,
        )
        with interrupts_held():
            self._process.start()
        theirs.close()
        return wire

    def _make(self, wire: Connection, name: str) -> None:
        """Until it is done or in trouble, or the session over; EOFError if the process has died."""
        while not self._over.is_set():
            came = self._asked(wire, name) if self._has_room() else None
            if came is not None and not came.stopped:
                self._count(came)
                return
            self._over.wait(_AGAIN_S)

    def _has_room(self) -> bool:
        try:
            return not disk.why_no_film(self._free_bytes(self._place.folder))
        except OSError:
            return False

    def _asked(self, wire: Connection, name: str) -> Compacted | None:
        """What came of it; None if the session is over and nothing came."""
        wire.send(name)
        while not wire.poll(_LOOK_S):
            if self._over.is_set() and not wire.poll(_ENDS_S):
                return None
        came: Compacted = wire.recv()
        return came

    def _count(self, came: Compacted) -> None:
        for line in came.lines:
            if not self.made.lines:
                self._news.put(STAYS_LARGE.format(line))
            self.made.lines.append(line)
        self.made.films += came.films
        self.made.before_bytes += came.before_bytes
        self.made.after_bytes += came.after_bytes

    def _end(self, wire: Connection) -> None:
        assert self._process is not None
        self._process.join(_ENDS_S)
        self._process.kill()
        self._process.join()
        wire.close()
