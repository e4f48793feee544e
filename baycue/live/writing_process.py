"""The process that writes a view to a file: it draws only while no swing is being judged."""

import multiprocessing
import os
import signal
import time
from ctypes import c_bool
from dataclasses import dataclass
from multiprocessing.connection import Connection
from pathlib import Path

import cv2

from baycue.errors import BaycueError
from baycue.keep.calm import process_gives_way
from baycue.process_name import call_this_process
from baycue.replay.export import Export, Turn, exported
from baycue.replay.showing import Showing

_LOOK_S = 0.1


@dataclass(frozen=True, slots=True)
class ViewRequest:
    """What to write: the view, as what, into which folder, and how its name begins."""

    showing: Showing
    what: Export
    out: Path
    stem: str


@dataclass(frozen=True, slots=True)
class Written:
    """What came of it: the file, or why there is none."""

    path: Path | None
    refusal: str = ""


def write_view(wire: Connection, request: ViewRequest, free: c_bool) -> None:
    """Write it, a picture at a time while ``free`` holds true, and tell what came of it."""
    # Ctrl-C goes to every process of a terminal; this one ends when its parent says so.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    call_this_process("baycue writing")
    process_gives_way()
    cv2.setNumThreads(1)
    wire.send(written(request, lambda: _wait_for(free)))


def written(request: ViewRequest, turn: Turn) -> Written:
    """The file, or in words why there is none."""
    try:
        path = exported(request.showing, request.what, request.out, request.stem, turn)
    except BaycueError as error:
        return Written(None, str(error))
    except OSError as error:
        return Written(None, f"{request.out}: cannot be written ({error.strerror})")
    return Written(path)


def _wait_for(free: c_bool) -> None:
    """Until nobody is judged; where the session died meanwhile this process ends."""
    parent = multiprocessing.parent_process()
    while not free.value:
        time.sleep(_LOOK_S)
        if parent is not None and not parent.is_alive():
            os._exit(1)
