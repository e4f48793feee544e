"""A camera that does wrong when told: ``python -m baycue.rehearsal.faults.camera_main CLIP...``.

Prints its address; then heeds lines of standard input until that is closed: a mood, ``clip N``,
``answer STATUS`` for an HTTP status, ``cut`` to hang up on who is there, ``gone`` and ``back``.
"""

import sys
from collections.abc import Iterator
from functools import partial
from pathlib import Path

from baycue.rehearsal.faults.moods import MOODS
from baycue.rehearsal.jpeg_server import JpegServer
from baycue.rehearsal.looped_clip import LoopedClip, looped_clip


class FaultyCamera:
    """Clips, the one that is on, and the mood; each viewer gets what they are now."""

    def __init__(self, clips: tuple[LoopedClip, ...]) -> None:
        self._clips, self._on, self._mood, self._cuts = clips, 0, "well", 0
        self._server: JpegServer | None = JpegServer(self._show)
        self._port, self.url = self._server.port, self._server.url

    def heed(self, line: str) -> None:
        """Do as the line says."""
        word, _, rest = line.partition(" ")
        if word == "clip":
            self._on = int(rest)
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
        """Pictures in the mood that is on, whichever it is, until one ends the show or it is cut."""
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

    def _goes_on(self, mood: str, on: int, here: tuple[JpegServer | None, int]) -> bool:
        return (mood, on, *here) == (self._mood, self._on, self._server, self._cuts)

    def _due(self) -> Iterator[bytes]:
        while True:
            on = self._on
            for jpeg in self._clips[on].show():
                yield jpeg
                if on != self._on:
                    break


def main(paths: list[str]) -> None:
    """Serve until standard input is closed, as it is when the parent ends."""
    camera = FaultyCamera(tuple(looped_clip(Path(path)) for path in paths))
    print(camera.url, flush=True)
    for line in sys.stdin:
        camera.heed(line.strip())
        print("done", flush=True)
    camera.close()


if __name__ == "__main__":
    main(sys.argv[1:])
