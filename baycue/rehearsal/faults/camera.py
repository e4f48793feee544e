"""The faulty camera's process, as its master sees it."""

import subprocess
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path

from baycue.errors import CameraError
from baycue.rehearsal.camera_process import spoken_to


class CameraMaster:
    """``url``: where the camera is.  Each order has been heeded when it returns."""

    def __init__(self, process: "subprocess.Popen[str]") -> None:
        assert process.stdout is not None
        assert process.stdin is not None
        self._lines, self._orders = process.stdout, process.stdin
        self.url = self._lines.readline().strip()
        if not self.url:
            raise CameraError("the rehearsal's faulty camera did not start")

    def order(self, line: str) -> None:
        """A mood, or one of the words that ``camera_main`` knows."""
        self._orders.write(line + "\n")
        self._orders.flush()
        self._lines.readline()


@contextmanager
def faulty_camera(clips: Sequence[Path]) -> Iterator[CameraMaster]:
    """A camera that shows the first clip over and over until it is told otherwise."""
    with spoken_to("baycue.rehearsal.faults.camera_main", *clips) as process:
        yield CameraMaster(process)
