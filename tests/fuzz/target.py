"""What is fuzzed: how an input is drawn, and what takes it in."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from random import Random

from baycue.errors import BaycueError

Draw = Callable[[Random], bytes]
Feed = Callable[[bytes, Path], None]


@dataclass(frozen=True, slots=True)
class Target:
    """``feed`` takes an input and an empty folder, and may raise ``BaycueError`` alone.

    ``share``: of a campaign's inputs.
    """

    name: str
    share: float
    draw: Draw
    feed: Feed

    def input(self, seed: int, number: int) -> bytes:
        """The same bytes for the same numbers, on every machine."""
        return self.draw(Random(f"{seed} {self.name} {number}"))

    def takes(self, data: bytes, folder: Path) -> bool:
        """Whether the input was taken; False for one that was refused by an error of ours.

        An error's text must be lines that any terminal can show.
        """
        try:
            self.feed(data, folder)
        except BaycueError as error:
            text = str(error)
            assert text.strip(), "an error without a text"
            assert "Traceback" not in text, text
            return False
        return True


def each(*works: Callable[[], object]) -> None:
    """Do them all, whatever of ours each of them raises."""
    for work in works:
        with suppress(BaycueError):
            work()
