"""Inputs drawn by hypothesis, which makes what it finds as small as it can.

    python -m tests.fuzz.drawn plan --inputs 5000 --seed 1

Ends with a line of how many it fed; else the traceback of the smallest that failed is shown.
"""

import argparse
import tempfile
from pathlib import Path
from random import Random

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import seed as seeded
from hypothesis import strategies as st

from tests.fuzz.arena import Arena
from tests.fuzz.bounded import feed_bounded
from tests.fuzz.targets import NAMES, target_named

COUNTED = "inputs fed: "


def drawn(name: str, inputs: int, seed: int, arena: Arena) -> int:
    """Feed so many, at least; how many they were."""
    target, fed = target_named(name), 0

    @seeded(seed)
    @settings(
        max_examples=inputs,
        deadline=None,
        database=None,
        phases=(Phase.generate, Phase.shrink),
        suppress_health_check=list(HealthCheck),
    )
    @given(st.randoms(use_true_random=False))
    def feed(random: Random) -> None:
        nonlocal fed
        feed_bounded(target, arena, target.draw(random))
        fed += 1

    target.takes(target.input(seed, 0), arena.clear())  # what is made once is made now
    feed()
    return fed


def main(words: list[str] | None = None) -> None:
    """AssertionError, or whatever was raised, if anything is found."""
    parser = argparse.ArgumentParser(prog="python -m tests.fuzz.drawn", description=__doc__)
    parser.add_argument("target", choices=NAMES)
    parser.add_argument("--inputs", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args(words)
    with tempfile.TemporaryDirectory(prefix="baycue_drawn_") as folder:
        arena = Arena(Path(folder) / "arena")
        print(f"{COUNTED}{drawn(asked.target, asked.inputs, asked.seed, arena)}")


if __name__ == "__main__":
    main()
