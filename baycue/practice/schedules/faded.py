"""Told of fewer and fewer swings, which ones drawn by seed, how many known beforehand.

Feedback faded to half of the trials beat feedback on every trial a day later (Winstein and
Schmidt 1990, Journal of Experimental Psychology: Learning, Memory, and Cognition 16:677).
"""

from dataclasses import dataclass, replace
from math import floor

import numpy as np

from baycue.practice.schedule import Answer, Schedule, ScheduleKind, Settings, Telling
from baycue.verdict.verdict import SwingVerdict

_ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class Faded:
    """``told``: for each swing of the block whether it is told; beyond them none is."""

    told: tuple[bool, ...]
    number: int = 0

    def after(self, verdict: SwingVerdict) -> tuple[Schedule, Answer]:
        """Told or not, by its place in the block alone."""
        is_told = self.number < len(self.told) and self.told[self.number]
        telling = Telling.TELL if is_told else Telling.WITHHOLD
        return replace(self, number=self.number + 1), Answer(telling)

    def left_over(self) -> tuple[SwingVerdict, ...]:
        """Nothing."""
        return ()


def drawn(settings: Settings) -> tuple[bool, ...]:
    """Which swings are told: the sum of the shares in all, rounded down, whatever the seed.

    Each swing's chance is its share, falling evenly from ``from_share`` to ``to_share``; systematic
    sampling from a shuffled list keeps both chances and count (Madow 1949, Annals of
    Mathematical Statistics 20:333, from memory).
    """
    rng = np.random.default_rng(settings.seed)
    shares = np.linspace(settings.from_share, settings.to_share, settings.swings)
    count = floor(float(shares.sum()) + _ROUNDING)
    if not count:
        return (False,) * settings.swings
    order = rng.permutation(settings.swings)
    reached = np.cumsum(shares[order]) * (count / shares.sum()) + rng.uniform(0, 1 - _ROUNDING)
    steps = np.diff(np.floor(reached + _ROUNDING), prepend=0.0)
    told = np.zeros(settings.swings, dtype=bool)
    told[order] = steps > 0
    return tuple(bool(each) for each in told)


KINDS = (ScheduleKind("faded", frozenset({"from", "to"}), lambda settings: Faded(drawn(settings))),)
