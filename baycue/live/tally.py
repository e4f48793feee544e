"""How the session goes: balls, passes, passes in a row."""

from dataclasses import dataclass, replace

from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class Tally:
    """Counts since the session began; ``balls`` also counts swings that could not be judged."""

    balls: int = 0
    passes: int = 0
    run_of_passes: int = 0

    def after(self, outcome: Outcome | None) -> "Tally":
        """One swing on; None for one that could not be judged, which breaks no run."""
        if outcome is None:
            return replace(self, balls=self.balls + 1)
        passed = outcome is Outcome.PASS
        return Tally(self.balls + 1, self.passes + passed, self.run_of_passes + 1 if passed else 0)
