"""A swing and the moments in it that coaches name."""

from dataclasses import dataclass
from enum import Enum


class CheckpointName(Enum):
    """The coaching trade's checkpoints (common practice, no source)."""

    ADDRESS = "address"
    TAKEAWAY = "takeaway"
    P2 = "P2"
    P3 = "P3"
    TOP = "top"
    P5 = "P5"
    P6 = "P6"
    IMPACT = "impact"
    P8 = "P8"
    FINISH = "finish"


TIME_FREEDOM = 7
"""Errors of checkpoints have heavier tails than a normal distribution's, about those of Student's t
with so many degrees of freedom (JCGM 100:2008, annex G): 6.6 fit best on 1122 drawn swings."""
SIGMAS_95 = 2.2
"""With these so many one-sigmas hold 95 in 100."""


@dataclass(frozen=True, slots=True)
class Checkpoint:
    """A named moment, between frames.

    ``sigma_ns``: its one-sigma: the true moment lies within it 68 times in 100, and within
    ``SIGMAS_95`` of it 95 times.
    """

    name: CheckpointName
    time_ns: int
    sigma_ns: int


@dataclass(frozen=True, slots=True)
class Swing:
    """One full swing; ``checkpoints`` are in order of time and each name occurs at most once."""

    number: int
    checkpoints: tuple[Checkpoint, ...]

    def at(self, name: CheckpointName) -> Checkpoint | None:
        """The checkpoint of that name, or None if it was not found."""
        return next((c for c in self.checkpoints if c.name is name), None)
