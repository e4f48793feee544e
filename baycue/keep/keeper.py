"""The seam between a live session and what is kept of it."""

from dataclasses import dataclass
from typing import Protocol

from baycue.keep.record import DrillPlace, PlanText, PracticeGo
from baycue.keep.standing import Standing
from baycue.pose.pose import Pose
from baycue.spine import ScoredSwing, UnscorableSwing


@dataclass(frozen=True, slots=True)
class ToldSwing:
    """A swing as it was answered.

    ``impact_ns``: the stamp of the first frame at or after impact.  ``drill``: by whose own
    targets it was judged; None for the plan's.  ``go``: which go of a laid-out session it counted
    as; None for none.
    """

    student: str
    plan: PlanText
    swing: ScoredSwing | UnscorableSwing
    impact_ns: int
    scored_ns: int
    drill: DrillPlace | None = None
    go: PracticeGo | None = None

    @property
    def number(self) -> int:
        """The swing's, counted from 1 in its session."""
        swing = self.swing
        return swing.verdict.swing_number if isinstance(swing, ScoredSwing) else swing.number


class Keeper(Protocol):
    """Is told of swings by whatever thread knows of them; nothing here ever waits."""

    @property
    def trouble(self) -> str:
        """Why not all is kept, for the screen; empty if all is well."""

    def known(self, told: ToldSwing) -> None:
        """A swing has been scored, or cannot be."""

    def finished(self, swing: ScoredSwing, poses: tuple[Pose, ...]) -> None:
        """The last swing is known with its P8 or finish; ``poses``: since the verdict."""

    def stands(self, student: str, standing: Standing) -> None:
        """How the session stands now, should it be cut off."""

    def let(self, free: bool) -> None:
        """Whether nobody is being judged; told again and again."""

    def news(self) -> tuple[str, ...]:
        """Lines for a terminal since last asked."""

    def close(self) -> None:
        """Keep what is still to be kept, then end; the one call that waits."""


class KeepsNothing:
    """For sessions of which nothing is kept."""

    trouble = ""

    def known(self, told: ToldSwing) -> None:
        """Forget it."""

    def finished(self, swing: ScoredSwing, poses: tuple[Pose, ...]) -> None:
        """Forget it."""

    def stands(self, student: str, standing: Standing) -> None:
        """Forget it."""

    def let(self, free: bool) -> None:
        """Nothing waits for it."""

    def news(self) -> tuple[str, ...]:
        """Nothing happens."""
        return ()

    def close(self) -> None:
        """Nothing is open."""
