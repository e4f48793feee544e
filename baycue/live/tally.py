"""How the session goes: balls, passes, passes in a row."""

from dataclasses import dataclass, replace

from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class Tally:
    """Counts since the session began; ``balls`` also counts swings that could not be judged.

    ``practice``: swings in which no ball was heard; they count for nothing else.
    """

    balls: int = 0
    passes: int = 0
    run_of_passes: int = 0
    practice: int = 0

    def after(self, outcome: Outcome | None) -> "Tally":
        """One swing on; None for one that could not be judged, which breaks no run."""
        if outcome is None:
            return replace(self, balls=self.balls + 1)
        passed = outcome is Outcome.PASS
        return replace(
            self,
            balls=self.balls + 1,
            passes=self.passes + passed,
            run_of_passes=self.run_of_passes + 1 if passed else 0,
        )

    def after_practice(self) -> "Tally":
        """One swing without a ball on."""
        return replace(self, practice=self.practice + 1)
