"""A camera that does wrong when told: ``python -m baycue.rehearsal.faults.camera_main CLIP OTHER``.

Prints its address; then heeds lines of standard input until that is closed: a mood, ``joined`` for
somebody from the other clip in the first and ``alone`` again,
``answer STATUS`` for an HTTP status, ``cut`` to hang up on who is there, ``gone`` and ``back``.
"""

import sys
from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

from baycue.rehearsal.faults.moods import MOODS
from baycue.rehearsal.faults.passer_by import with_passer_by
from baycue.rehearsal.jpeg_server import JpegServer
from baycue.rehearsal.looped_clip import LoopedClip, jpeg_of, looped_clip


class FaultyCamera:
    """The clip that is on and the mood; each viewer gets what they are now."""

    def __init__(self, alone: LoopedClip, joined: Callable[[], LoopedClip]) -> None:
        self._alone, self._joined = alone, joined
        self._on, self._mood, self._cuts = alone, "well", 0
        self._server: JpegServer | None = JpegServer(self._show)
        self._port, self.url = self._server.port, self._server.url

    def heed(self, line: str) -> None:
        """Do as the line says."""
        word, _, rest = line.partition(" ")
        if word == "joined":
            self._on = self._joined()
        elif word == "alone":
            self._on = self._alone
        elif word == "answer" and self._server:
            self._server.answer_with(int(rest))
        elif word == "cut":
            self._cuts += 1
        elif word == "gone":
            self.close()
        elif word == "back":
            self._server = JpegServer(self._show, port=self._port)
        else:
            self._mood = word

    def close(self) -> None:
        """No longer there."""
        if self._server:
            self._server.close()
        self._server = None

    def _show(self) -> Iterator[bytes]:
        """Pictures in whichever mood is on, until one ends the show or it is cut."""
        here, due = (self._server, self._cuts), self._due()
        while here == (self._server, self._cuts):
            mood, on = self._mood, self._on
            goes_on = partial(self._goes_on, mood, on, here)
            for jpeg in MOODS[mood](due, goes_on):
                yield jpeg
                if not goes_on():
                    break
            if goes_on():
                return

    def _goes_on(self, mood: str, on: LoopedClip, here: tuple[JpegServer | None, int]) -> bool:
        return on is self._on and (mood, *here) == (self._mood, self._server, self._cuts)

    def _due(self) -> Iterator[bytes]:
        while True:
            on = self._on
            for jpeg in on.show():
                yield jpeg
                if on is not self._on:
                    break


def main(clip: Path, other: Path) -> None:
    """Serve until standard input is closed, as it is when the parent ends."""
    alone = looped_clip(clip)
    camera = FaultyCamera(alone, lambda: _joined(alone, clip, other))
    print(camera.url, flush=True)
    for line in sys.stdin:
        camera.heed(line.strip())
        print("done", flush=True)
    camera.close()


def _joined(alone: LoopedClip, clip: Path, other: Path) -> LoopedClip:
    jpegs = tuple(jpeg_of(picture) for picture in with_passer_by(clip, other))
    return replace(alone, jpegs=jpegs)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
