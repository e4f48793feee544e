"""A session that goes on while its films are made small.

    python -m tests.making_small FOLDER

prints the process that makes them small once it is in the middle of one, and waits to be killed.
"""

import sys
import time
from dataclasses import dataclass, field, replace
from pathlib import Path

from baycue.capture.shot import Shot
from baycue.keep.disk import LEAST_FOR_FILMS_BYTES
from baycue.keep.film import FilmWriter
from baycue.keep.kept_session import KeptSession
from baycue.keep.place import Place
from baycue.keep.record import SwingRecord
from baycue.keep.sidecar import read_sidecar
from baycue.keep.small_film import SMALL_CODEC
from baycue.keep.small_maker import SmallMaker
from tests.jpeg_shots import jpeg_of, uneven_stamps_ns
from tests.kept_swing import swing_record
from tests.patience import wait_until
from tests.test_keep_check import with_real_film

SWINGS, PICTURES = 2, 200


@dataclass(slots=True)
class Disk:
    """One that can be low."""

    free: int = LEAST_FOR_FILMS_BYTES

    def __call__(self, folder: Path) -> int:
        return self.free


@dataclass(slots=True)
class Going:
    """Two swings: the first one's film takes long enough to be caught in the middle."""

    place: Place
    session: KeptSession
    maker: SmallMaker
    disk: Disk
    news: list[str] = field(default_factory=list)

    def name(self, number: int) -> str:
        where = self.session.folder.relative_to(self.place.folder).as_posix()
        return f"{where}/swing_{number:03}.json.gz"

    def sidecar(self, number: int) -> Path:
        return self.place.inside(self.name(number))

    def partial(self, number: int) -> Path:
        return self.sidecar(number).with_name(f"swing_{number:03}.mp4.partial")

    def small(self) -> list[bool]:
        """Of each swing, whether its film is."""
        return [_codec(self.sidecar(n + 1)) == SMALL_CODEC for n in range(SWINGS)]

    def told(self) -> list[str]:
        self.news += self.maker.news()
        return self.news

    def begin(self) -> int:
        """All asked for, and stopped in the middle of the first; the process."""
        self.maker.let(True)
        for number in range(1, SWINGS + 1):
            self.maker.add(self.name(number))
        wait_until(self.partial(1).exists)
        self.maker.let(False)
        assert self.maker.process_id is not None
        return self.maker.process_id


def going_on(folder: Path) -> Going:
    place, disk = Place(folder), Disk()
    place.folder.mkdir()
    session = KeptSession(place, "Heron", "a camera")
    session.keep(_with_long_film(session))
    session.keep(with_real_film(session, 2, "Heron"))
    return Going(place, session, SmallMaker(place, disk), disk)


def _with_long_film(session: KeptSession) -> SwingRecord:
    writer = FilmWriter(session.film_path(1))
    picture = jpeg_of(100, 320, 180)
    for number, stamp_ns in enumerate(uneven_stamps_ns(PICTURES)):
        writer.write(Shot(number, stamp_ns, picture))
    return replace(session.stamped(swing_record(1)), film=writer.finish(), no_film="")


def _codec(sidecar: Path) -> str:
    film = read_sidecar(sidecar).film
    assert film is not None
    return film.codec


if __name__ == "__main__":
    print(going_on(Path(sys.argv[1])).begin(), flush=True)
    time.sleep(600)
