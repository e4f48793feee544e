"""What is told of a swing as it comes: the strike, a stop at the ball, through, the finish."""

from dataclasses import dataclass, field

_FOLLOWS_NS = 60_000_000
"""The hands stop before the club has: what is looked at of a swing that stops."""


@dataclass(frozen=True, slots=True)
class StrikeSeen:
    """A full swing has come back to the ball; times are rough, to the frame.

    ``stops``: the club stays there and goes no further; pictures from later tell nothing.
    ``unseen_ns``: the two looks between which the hands went past the ball, where none was near.
    """

    address_ns: int
    takeaway_ns: int
    top_ns: int
    return_ns: int
    stops: bool = field(default=False, kw_only=True)
    unseen_ns: tuple[int, int] | None = field(default=None, kw_only=True)

    @property
    def until_ns(self) -> int | None:
        """Up to when it is looked at; None for as far as there are pictures."""
        return self.return_ns + _FOLLOWS_NS if self.stops else None


@dataclass(frozen=True, slots=True)
class StopSeen:
    """A club that came down at speed has stayed at the ball: into the ground, or held back."""

    strike: StrikeSeen


@dataclass(frozen=True, slots=True)
class ThroughSeen:
    """After a strike the club has gone through, past P8."""


@dataclass(frozen=True, slots=True)
class FinishSeen:
    """The hands have come to rest after a strike."""

    finish_ns: int


SwingEvent = StrikeSeen | StopSeen | ThroughSeen | FinishSeen
