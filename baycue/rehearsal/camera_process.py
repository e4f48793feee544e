"""Starting and ending the rehearsal's camera, and the log of what it sent."""

import subprocess
import sys
import threading
from array import array
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from baycue.errors import CameraError
from baycue.rehearsal.practice_show import WATCHING


class CameraProcess:
    """The address of a clip served by another process, and when each picture was sent.

    ``sent_ns[n]`` is the monotonic clock, one for all processes on Linux, just before the
    n-th picture since the viewer came was sent; an array, since a list of numbers would grow by
    9 MB an hour in the process whose memory is measured, and this grows by less than 2.
    ``sent``: pictures to all viewers there were.
    """

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        assert process.stdout is not None
        self._lines = process.stdout
        url, _, count = self._lines.readline().strip().partition(" ")
        if not count:
            raise CameraError("the rehearsal's camera did not start")
        self.url, self.clip_frames, self.process_id = url, int(count), process.pid
        self.sent_ns: array[int] = array("q")
        self.sent = 0
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        for line in self._lines:
            number, _, sent_ns = line.partition(" ")
            if int(number) == 0:
                del self.sent_ns[:]
            self.sent_ns.append(int(sent_ns))
            self.sent += 1


@contextmanager
def served_clip(clip: Path) -> Iterator[CameraProcess]:
    """A camera that shows a clip over and over."""
    with _served("baycue.rehearsal.serve", clip) as camera:
        yield camera


@contextmanager
def served_practice(samples: Path, watching: bool = False) -> Iterator[CameraProcess]:
    """A camera that shows a golfer at practice, from a folder of sample recordings.

    ``watching``: one who stays in the finish and watches the replay after each ball.
    """
    words = (WATCHING,) if watching else ()
    with _served("baycue.rehearsal.serve_practice", samples, *words) as camera:
        yield camera


@contextmanager
def _served(module: str, *words: Path | str) -> Iterator[CameraProcess]:
    with spoken_to(module, *words) as process:
        yield CameraProcess(process)


@contextmanager
def spoken_to(module: str, *words: Path | str) -> Iterator[subprocess.Popen[str]]:
    """A module run as a program that is told orders and answers by lines, until it is left."""
    process = subprocess.Popen(
        [sys.executable, "-m", module, *map(str, words)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        yield process
    finally:
        process.terminate()
        process.wait(10)
        for pipe in (process.stdin, process.stdout):
            if pipe:
                pipe.close()
