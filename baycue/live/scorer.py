"""The seam between watching swings and scoring them."""

from typing import Protocol

from baycue.live.desk import Desk, Expected, Scoring, Shown, Struck
from baycue.plan.plan import Plan
from baycue.spine import FinishedSwing
from baycue.swing.events import FinishSeen, ThroughSeen


class Scorer(Protocol):
    """Is shown every glimpse, and scores a swing when it has come back to the ball.

    ``follow``, ``expect``, ``score`` and ``after`` are called by the thread that watches, the
    others by any one other.
    """

    def follow(self, shown: Shown, plan: Plan) -> None:
        """One more glimpse; never waits."""

    def expect(self, expected: Expected) -> None:
        """Pictures of which there is no glimpse yet; never waits."""

    def score(self, struck: Struck) -> Scoring:
        """The swing that the last glimpse shown has completed; waits for the answer."""

    def after(self, event: ThroughSeen | FinishSeen) -> None:
        """The last swing has gone on, in the last glimpse shown; never waits."""

    def finished(self) -> tuple[FinishedSwing, ...]:
        """Swings that have been told P8 or finish since last asked."""

    def notices(self) -> tuple[str, ...]:
        """Lines for a terminal since last asked."""

    def close(self) -> None:
        """Score no more."""


class HereScorer:
    """Scores in the thread that asks, all at the strike: for recordings and for tests."""

    def __init__(self) -> None:
        self._desk = Desk()
        self._finished: list[FinishedSwing] = []

    def follow(self, shown: Shown, plan: Plan) -> None:
        """Remember it."""
        self._desk.take(shown, plan)

    def expect(self, expected: Expected) -> None:
        """All is done at the strike."""

    def score(self, struck: Struck) -> Scoring:
        """Do all the work."""
        return self._desk.score(struck)

    def after(self, event: ThroughSeen | FinishSeen) -> None:
        """Do the work at once."""
        finished = self._desk.after(event)
        if finished:
            self._finished.append(finished)

    def finished(self) -> tuple[FinishedSwing, ...]:
        """Those not asked for yet."""
        told, self._finished = tuple(self._finished), []
        return told

    def notices(self) -> tuple[str, ...]:
        """Nothing can go wrong."""
        return ()

    def close(self) -> None:
        """Nothing is open."""
