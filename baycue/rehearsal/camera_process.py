"""Starting and ending the rehearsal's camera, and the log of what it sent."""

import subprocess
import sys
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from baycue.errors import CameraError


class CameraProcess:
    """The address of a clip served by another process, and when each picture was sent.

    ``sent_ns[n]`` is the monotonic clock, one for all processes on Linux, just before the
    n-th picture since the viewer came was sent.
    """

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        assert process.stdout is not None
        self._lines = process.stdout
        url, _, count = self._lines.readline().strip().partition(" ")
        if not count:
            raise CameraError("the rehearsal's camera did not start")
        self.url, self.clip_frames = url, int(count)
        self.sent_ns: list[int] = []
        threading.Thread(target=self._listen, daemon=True).start()

    def _listen(self) -> None:
        for line in self._lines:
            number, _, sent_ns = line.partition(" ")
            if int(number) == 0:
                self.sent_ns.clear()
            self.sent_ns.append(int(sent_ns))


@contextmanager
def served_clip(clip: Path) -> Iterator[CameraProcess]:
    """A camera that shows a clip over and over."""
    process = subprocess.Popen(
        [sys.executable, "-m", "baycue.rehearsal.serve", str(clip)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
    )
    try:
        yield CameraProcess(process)
    finally:
        process.terminate()
        process.wait(10)
        for pipe in (process.stdin, process.stdout):
            if pipe:
                pipe.close()
