"""What a schedule of feedback is: of which swings the golfer is told, never when."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from typing import Protocol

from baycue.measures.measurement import Unit
from baycue.verdict.verdict import SwingVerdict


class Telling(Enum):
    """What becomes of one swing's verdict."""

    TELL = "told"
    ASK = "told if the golfer asks"
    WITHHOLD = "not told"
    SUM_UP = "told together with those before it"


@dataclass(frozen=True, slots=True)
class Answer:
    """What to do with a verdict; ``summed``: the swings to tell together, oldest first."""

    telling: Telling
    summed: tuple[SwingVerdict, ...] = ()


TELL = Answer(Telling.TELL)
"""What becomes of every swing without a schedule."""


class Schedule(Protocol):
    """A pure fold over the verdicts of one block; the log gets every verdict all the same."""

    def after(self, verdict: SwingVerdict) -> tuple["Schedule", Answer]:
        """One swing on: the schedule from now on, and what becomes of this verdict."""

    def left_over(self) -> tuple[SwingVerdict, ...]:
        """What is still to be summed up when the block ends."""


@dataclass(frozen=True, slots=True)
class Band:
    """How far beyond a bound still counts as inside, in the unit a measure is held in."""

    value: float
    unit: Unit


@dataclass(frozen=True, slots=True)
class Settings:
    """What a coach may set; each kind uses what it names in ``keys``.

    ``from_share`` and ``to_share``: 0 to 1 of swings told, at the block's start and end.
    ``every``: so many swings a summary.  ``band``: None for the targets' own bounds.
    ``swings``: how many the block has.  ``seed``: whatever is drawn is drawn from it.
    """

    swings: int
    seed: tuple[int, ...] = (0,)
    from_share: float = 1.0
    to_share: float = 0.5
    every: int = 5
    band: Band | None = None


@dataclass(frozen=True, slots=True)
class ScheduleKind:
    """A schedule's word in plans, the plan keys that go with it, and how one starts."""

    word: str
    keys: frozenset[str]
    start: Callable[[Settings], Schedule]
