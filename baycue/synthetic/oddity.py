"""Swings of other makes than the two-link model's, so that no model marks its own homework.

The makes are what coaches see at a range (common practice, no source); how far each departs
from the model is invented.
"""

from dataclasses import dataclass
from enum import StrEnum


class OddKind(StrEnum):
    """In what a swing departs from the two-link model with its release.

    ``DRIVEN_WRIST``: the wrist is thrown open at the release, then hardly driven any more.
    ``LATE_WRIST``: nothing opens the wrist until late in the downswing, then all at once.
    ``CAST``: the wrist opens from the top, the shaft leans back at impact.
    ``OFF_PLANE``: the club leaves the arms' plane at the top and finds it again at impact.
    ``UNEVEN_TEMPO``: a pause at the top, or a downswing that starts quickly and then dawdles.
    ``ODD_HAND_PATH``: the lead arm bends and straightens on the way down.
    """

    NONE = "none"
    DRIVEN_WRIST = "driven wrist"
    LATE_WRIST = "late wrist"
    CAST = "cast"
    OFF_PLANE = "off plane"
    UNEVEN_TEMPO = "uneven tempo"
    ODD_HAND_PATH = "odd hand path"


ODD_KINDS = tuple(kind for kind in OddKind if kind is not OddKind.NONE)


@dataclass(frozen=True, slots=True)
class Oddity:
    """A kind, and how much of it: -1 to 1, 0 for none.

    The sign tells two ways apart: off plane, over the top (+) or dropped inside (-); uneven
    tempo, a pause (+) or a rush (-); odd hand path, pulled in and thrown out (+) or thrown
    out from a bent arm (-).  The wrist's kinds have one way and use the size alone.
    """

    kind: OddKind = OddKind.NONE
    amount: float = 0.0

    def __post_init__(self) -> None:
        if not -1.0 <= self.amount <= 1.0:
            raise ValueError(f"the oddity's amount is {self.amount}; -1 to 1")
        if (self.kind is OddKind.NONE) != (self.amount == 0.0):
            raise ValueError(f"{self.kind.value!r} with amount {self.amount}; none goes with 0")

    @property
    def size(self) -> float:
        """The amount without its sign."""
        return abs(self.amount)


NO_ODDITY = Oddity()
