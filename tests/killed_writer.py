"""Keeps swings as fast as it can until it is killed, again and again.

    python -m tests.killed_writer FOLDER KILLS SEED

Each time a child process keeps swings in FOLDER and says so over a pipe, and is killed without
warning at a random moment.  Prints as JSON the swings that were said to be kept: session, number.
"""

import json
import os
import select
import signal
import sys
from dataclasses import replace
from pathlib import Path

import numpy as np

from baycue.keep.film import CODEC, FilmWriter
from baycue.keep.kept_session import KeptSession
from baycue.keep.place import Place
from baycue.keep.record import Film
from tests.jpeg_shots import jpeg_shots, uneven_stamps_ns
from tests.kept_swing import swing_record

SHOTS = tuple(jpeg_shots(uneven_stamps_ns(40)))
MOST_KEPT, LONGEST_S = 1, 0.08
"""A child is killed a moment after it has kept no swing or one, however fast it is."""


def keep_on(place: Place, said: int) -> None:
    session = KeptSession(place, "Heron", "a camera")
    for number in range(1, 1000):
        record = replace(swing_record(number), session=session.folder.name)
        session.keep_first(replace(record, film=promised_film(number), no_film=""))
        writer = FilmWriter(session.film_path(number))
        for shot in SHOTS:
            writer.write(shot)
        session.keep(replace(record, film=writer.finish(), no_film=""))
        os.write(said, f"{session.folder.name} {number}\n".encode())


def promised_film(number: int) -> Film:
    """What is known of a film that is about to be written."""
    return Film(f"swing_{number:03d}.mov", CODEC, 0, 0, (SHOTS[0].stamp_ns,), 0, 0)


def one_life(place: Place, kept: int, then_s: float) -> bytes:
    """What one child said before it was killed."""
    hears, says = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            keep_on(place, says)
        finally:
            os._exit(1)
    os.close(says)
    with os.fdopen(hears, "rb") as pipe:
        heard = b"".join(pipe.readline() for _ in range(kept))
        select.select([], [], [], then_s)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)
        return heard + pipe.read()


def main() -> None:
    folder, kills, seed = Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3])
    place = Place(folder)
    folder.mkdir(exist_ok=True)
    rng = np.random.default_rng(seed)
    said = b"".join(
        one_life(place, int(rng.integers(0, MOST_KEPT + 1)), float(rng.uniform(0, LONGEST_S)))
        for _ in range(kills)
    )
    print(json.dumps([line.decode().split() for line in said.splitlines()]))


if __name__ == "__main__":
    main()
