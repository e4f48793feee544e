"""Makes films small until it is killed, again and again.

    python -m tests.killed_compactor FOLDER KILLS SEED

Each time a child process is killed without warning at a random moment of its work.
"""

import os
import select
import signal
import sys
from pathlib import Path

import numpy as np

from baycue.keep.compact import compact, large_films
from baycue.keep.log import SwingLog
from baycue.keep.place import Place

MOST_PICTURES = 60
"""A child is killed a moment after it has been asked whether to go on so many times."""
LONGEST_S = 0.02


def one_life(place: Place, pictures: int, then_s: float) -> None:
    hears, says = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            make_small(place, says)
        finally:
            os._exit(1)
    os.close(says)
    with os.fdopen(hears, "rb") as pipe:
        for _ in range(pictures):
            pipe.read(1)
        select.select([], [], [], then_s)
        os.kill(child, signal.SIGKILL)
        os.waitpid(child, 0)


def make_small(place: Place, says: int) -> None:
    def go_on() -> bool:
        os.write(says, b".")
        return True

    with SwingLog(place.log) as log:
        names = large_films(log)
    compact(place, names, go_on)


def main() -> None:
    place, kills, seed = Place(Path(sys.argv[1])), int(sys.argv[2]), int(sys.argv[3])
    rng = np.random.default_rng(seed)
    for _ in range(kills):
        one_life(place, int(rng.integers(0, MOST_PICTURES)), float(rng.uniform(0, LONGEST_S)))


if __name__ == "__main__":
    main()
