"""A voice: the three tones that answer a golfer, chosen together."""

from collections.abc import Mapping
from dataclasses import dataclass

from baycue.cues.tones import RATE_HZ, Score, Tone, render
from baycue.verdict.verdict import Outcome


@dataclass(frozen=True, slots=True)
class Voice:
    """``told``: what it sounds like and for whom it is; ``scores``: one for each outcome."""

    name: str
    told: str
    scores: Mapping[Outcome, Score]

    def tone(self, outcome: Outcome) -> Tone:
        """The tone of an outcome at ``RATE_HZ``."""
        return Tone(outcome, render(self.scores[outcome], RATE_HZ), RATE_HZ)
