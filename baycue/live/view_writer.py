"""Views of the replay written to files meanwhile: in a process of its own, between swings."""

import multiprocessing
import queue
import threading
from ctypes import c_bool
from multiprocessing.connection import Connection
from pathlib import Path

from baycue.counted import counted
from baycue.interrupts_held import interrupts_held
from baycue.keep.calm import give_way_to_all
from baycue.keep.place import swing_stem
from baycue.live.writing_process import ViewRequest, Written, write_view
from baycue.replay.export import Export
from baycue.replay.showing import Showing

TOLD_NS = 8_000_000_000
"""So long the screen says what came of a file."""
MOST_WAITING = 4
_LAST_S = 60.0
"""So long the session's end waits for each file that is still being written."""
_WORDS = {Export.FILM: "a film", Export.GIF: "a GIF", Export.STILL: "a still"}


class ViewWriter:
    """Takes views as they are asked for and writes them one after another; asking never waits.

    ``out``: the folder.  ``blur_faces``: heads in the files are made unrecognisable, the
    screen's are not.  Used by one thread.
    """

    def __init__(self, out: Path, blur_faces: bool = False) -> None:
        self._out, self._blur_faces = out, blur_faces
        self._asked: queue.SimpleQueue[ViewRequest | None] = queue.SimpleQueue()
        self._news: queue.SimpleQueue[str] = queue.SimpleQueue()
        self._words, self._until_ns, self._waiting = "", 0, 0
        # A fork would carry the pose model's and the sound card's threads' locks along.
        self._context = multiprocessing.get_context("spawn")
        # Not an event: one that a killed process holds would never be let go of.
        self._free = self._context.RawValue(c_bool, False)
        self._hurry = threading.Event()
        self._thread: threading.Thread | None = None

    def ask(self, showing: Showing, what: Export, now_ns: int) -> None:
        """Have a view written soon; refused, and told, where too many wait."""
        if self._waiting >= MOST_WAITING:
            self._tell(f"not written: {self.still} still being written", now_ns)
            return
        if self._thread is None:
            self._thread = threading.Thread(target=self._run, name="view writer", daemon=True)
            self._thread.start()
        stem = swing_stem(showing.film.scored.verdict.swing_number)
        self._waiting += 1
        view = showing.with_faces_blurred() if self._blur_faces else showing
        self._asked.put(ViewRequest(view, what, self._out, stem))
        self._tell(f"writing {_WORDS[what]}", now_ns)

    def let(self, free: bool) -> None:
        """Whether nobody is being judged; while somebody is, nothing is drawn for a file."""
        self._free.value = free

    def news(self, now_ns: int) -> tuple[str, ...]:
        """What came of files since last asked, a line each."""
        lines = tuple(self._news.get() for _ in range(self._news.qsize()))
        self._waiting -= len(lines)
        for line in lines:
            self._tell(line, now_ns)
        return lines

    def words(self, now_ns: int) -> str:
        """What the screen says of it; empty for nothing."""
        return self._words if now_ns < self._until_ns else ""

    @property
    def still(self) -> str:
        """How many files are still being written, in words; empty for none."""
        return counted(self._waiting, "file is", "files are") if self._waiting else ""

    def close(self) -> None:
        """Write what was asked for, for at most a minute each; the one call that waits."""
        if self._thread is None:
            return
        self._free.value = True
        self._asked.put(None)
        self._thread.join(_LAST_S * max(self._waiting, 1))
        self._hurry.set()
        self._thread.join()

    def _tell(self, words: str, now_ns: int) -> None:
        self._words, self._until_ns = words, now_ns + TOLD_NS

    def _run(self) -> None:
        give_way_to_all()
        while (request := self._asked.get()) is not None:
            came = Written(None, "the session is over") if self._hurry.is_set() else None
            self._news.put(_line(request, came or self._written(request)))

    def _written(self, request: ViewRequest) -> Written:
        wire, theirs = self._context.Pipe()
        process = self._context.Process(
            target=write_view, args=(theirs, request, self._free), name="writing", daemon=True
        )
        with interrupts_held():
            process.start()
        theirs.close()
        try:
            return self._outcome(wire)
        finally:
            process.kill()
            process.join()
            wire.close()

    def _outcome(self, wire: Connection) -> Written:
        try:
            while not wire.poll(0.2):
                if self._hurry.is_set():
                    return Written(None, "the session is over")
            came: Written = wire.recv()
        except (EOFError, OSError):
            return Written(None, "the process that writes it has died")
        return came


def _line(request: ViewRequest, came: Written) -> str:
    if came.path is None:
        return f"{_WORDS[request.what]} is not written: {came.refusal}"
    return f"written to {came.path}"
