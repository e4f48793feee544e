"""What is seen, written to a file of its own: film, GIF or still."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import replace
from enum import Enum
from fractions import Fraction
from itertools import count
from pathlib import Path

import av
import cv2
import numpy as np
import pygame
from av.video.frame import VideoFrame

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from baycue.cues.display import save_png
from baycue.errors import ExistsError, OutputError
from baycue.keep.place import PARTIAL
from baycue.keep.whole import name_whole
from baycue.replay.page import draw_replay, replay_page
from baycue.replay.showing import Showing

SIZE_PX = (1280, 720)
_GIF_WIDTH_PX, _GIF_FPS = 640, 12
_FASTEST_FPS = 60.0

Turn = Callable[[], None]
"""Called before each picture, and returns when that may be drawn."""


def _at_once() -> None:
    """Nobody else wants the processor."""


class Export(Enum):
    """A view to be written to a file, and the ending of its name."""

    FILM = ".mp4"
    GIF = ".gif"
    STILL = ".png"


def exported(showing: Showing, what: Export, out: Path, stem: str, turn: Turn = _at_once) -> Path:
    """Write the view to the first free name in ``out``, which is made; returns the file.

    Raises OutputError or OSError where it cannot be written.
    """
    out.mkdir(parents=True, exist_ok=True)
    path = free_name(out, stem, what.value)
    ways = {Export.FILM: export_film, Export.GIF: export_gif, Export.STILL: export_still}
    ways[what](showing, path, turn)
    return path


def free_name(folder: Path, stem: str, ending: str) -> Path:
    """The first of ``stem-1.mp4``, ``stem-2.mp4`` and so on that is not there, nor half written."""
    names = (folder / f"{stem}-{number}{ending}" for number in count(1))
    return next(path for path in names if not (path.exists() or _partial(path).exists()))


def export_still(showing: Showing, path: Path, turn: Turn = _at_once) -> None:
    """The view as a PNG; OutputError rather than overwrite anything."""
    turn()
    surface = pygame.Surface(SIZE_PX)
    draw_replay(surface, replay_page(showing))
    with _whole(path) as partial:
        save_png(surface, partial)


def export_film(showing: Showing, path: Path, turn: Turn = _at_once) -> None:
    """The stretch that is played, at its speed, as H.264 in MP4; OutputError if it cannot be."""
    with ClipWriter(path, *SIZE_PX) as writer:
        for number, (time_ns, picture) in enumerate(_views(showing, 1 / _FASTEST_FPS, turn)):
            writer.write(Frame(number, time_ns, picture))


def export_gif(showing: Showing, path: Path, turn: Turn = _at_once) -> None:
    """The same as an animated GIF, smaller and with fewer pictures a second."""
    height = round(_GIF_WIDTH_PX * SIZE_PX[1] / SIZE_PX[0])
    with _whole(path) as partial, av.open(str(partial), "w", format="gif") as container:
        stream = container.add_stream("gif", rate=_GIF_FPS)
        stream.width, stream.height, stream.pix_fmt = _GIF_WIDTH_PX, height, "rgb8"
        for number, picture in enumerate(_evenly(showing, turn)):
            small = cv2.resize(picture, (_GIF_WIDTH_PX, height), interpolation=cv2.INTER_AREA)
            frame = VideoFrame.from_ndarray(np.asarray(small, np.uint8), format="bgr24")
            frame = frame.reformat(format="rgb8")
            frame.pts, frame.time_base = number, Fraction(1, _GIF_FPS)
            container.mux(stream.encode(frame))
        container.mux(stream.encode(None))


@contextmanager
def _whole(path: Path) -> Iterator[Path]:
    """A file to write to, which has its own name only when it is whole; OutputError if refused."""
    partial = _partial(path)
    try:
        if path.exists() or partial.exists():
            raise FileExistsError
        try:
            yield partial
        except BaseException:
            partial.unlink(missing_ok=True)
            raise
        name_whole(partial, path)
    except FileExistsError:
        raise ExistsError(f"{path}: exists already and is not overwritten") from None
    except OSError as error:
        raise OutputError(f"{path}: cannot be written ({error.strerror})") from None


def _partial(path: Path) -> Path:
    return path.with_name(path.name + PARTIAL)


def _views(showing: Showing, least_gap_s: float, turn: Turn) -> Iterator[tuple[int, Picture]]:
    """Every picture of the stretch that is played, with its time at the speed it is played."""
    low, high = showing.player.stretch_ns
    last = -1e18
    for stamp_ns in showing.film.stamps_ns:
        time_ns = (stamp_ns - low) / showing.player.speed
        if low <= stamp_ns <= high and time_ns - last >= 0.9e9 * least_gap_s:
            last = time_ns
            turn()
            yield round(time_ns), _view(showing, stamp_ns)


def _evenly(showing: Showing, turn: Turn) -> Iterator[Picture]:
    low, high = showing.player.stretch_ns
    step_ns = 1e9 / _GIF_FPS * showing.player.speed
    for time_ns in np.arange(low, high, step_ns):
        turn()
        yield _view(showing, float(time_ns))


def _view(showing: Showing, time_ns: float) -> Picture:
    surface = pygame.Surface(SIZE_PX)
    at = replace(showing, player=replace(showing.player, at_ns=time_ns))
    draw_replay(surface, replay_page(at))
    pixels = pygame.surfarray.array3d(surface).transpose(1, 0, 2)
    return np.ascontiguousarray(pixels[:, :, ::-1])
