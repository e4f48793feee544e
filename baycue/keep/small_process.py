"""The process that makes films small while a session goes on: only while nobody is judged."""

import signal
import time
from collections.abc import Callable
from ctypes import c_int
from enum import IntEnum
from multiprocessing.connection import Connection

from baycue.errors import InUseError
from baycue.keep.calm import process_gives_way
from baycue.keep.compact import Compacted, compact, films_wanted
from baycue.keep.place import Place
from baycue.process_name import call_this_process
from baycue.with_parent import end_with_parent

_WAIT_S, _LOOK_S = 0.05, 0.25


class Turn(IntEnum):
    """What the process may do: wait where it is, go on, or let go of what it is at and end."""

    WAIT = 0
    GO_ON = 1
    END = 2


class TurnTaker:
    """Asked before each picture: returns when that may be worked at, False to let go of the film.

    Lets go when the session ends, or when somebody else wants the films.
    """

    def __init__(
        self, place: Place, turn: c_int, clock: Callable[[], float] = time.monotonic
    ) -> None:
        self._place, self._turn, self._clock = place, turn, clock
        self._next_look_s = clock()

    def __call__(self) -> bool:
        """Whether to go on."""
        while not self._lets_go():
            if self._turn.value == Turn.GO_ON:
                return True
            time.sleep(_WAIT_S)
        return False

    def _lets_go(self) -> bool:
        if self._clock() >= self._next_look_s:
            self._next_look_s = self._clock() + _LOOK_S
            if films_wanted(self._place):
                return True
        return self._turn.value == Turn.END


def make_films_small(wire: Connection, place: Place, turn: c_int) -> None:
    """Make films small, one for each sidecar's name that comes, until None comes.

    Answers each with what came of it, ``stopped`` if it was let go of.
    """
    # Ctrl-C goes to every process of a terminal; this one ends when its parent says so, or dies.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    end_with_parent()
    call_this_process("baycue films")
    process_gives_way()
    try:
        while (name := wire.recv()) is not None:
            wire.send(_made_small(place, name, TurnTaker(place, turn)))
    except (EOFError, OSError):
        return  # the parent has died


def _made_small(place: Place, name: str, taker: TurnTaker) -> Compacted:
    if not taker():
        return Compacted(stopped=True)
    try:
        return compact(place, [name], taker)
    except InUseError:
        return Compacted(stopped=True)
