"""How well a measure tells good swings from poor ones: ranks, an exact p, and Holm's correction.

The effect is the share of all pairs of a good and a poor swing in which the good one's value is
higher, ties counting half (Vargha and Delaney 2000, Journal of Educational and Behavioral
Statistics 25:101).  p is that of the Mann-Whitney test (Mann and Whitney 1947, Annals of
Mathematical Statistics 18:50), two-sided and exact; with ties, over all permutations of the ranks
if they are few enough, else by the normal approximation.  Over several measures it is adjusted
by Holm's rule (Holm 1979, Scandinavian Journal of Statistics 6:65), for among many one will look
good by chance.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
from scipy import stats

CONVENTION = 0.05
"""Under it a difference is called one; a convention, no law."""
_MOST_WAYS = 20_000


@dataclass(frozen=True, slots=True)
class Separation:
    """``higher``: good above poor in so many of ``pairs``; ``p``: by chance, before adjusting.

    ``least_p``: the smallest p that so few swings could give at all.
    """

    higher: float
    pairs: int
    p: float
    least_p: float

    @property
    def share(self) -> float:
        """The share of pairs in which the good swing is higher: 0.5 tells nothing."""
        return self.higher / self.pairs

    @property
    def good_is_higher(self) -> bool:
        """Which way they differ."""
        return self.share >= 0.5

    @property
    def strength(self) -> float:
        """How far the two are apart, 0 (not at all) to 1 (no overlap)."""
        return abs(2 * self.share - 1)


def separation_of(good: Sequence[float], poor: Sequence[float]) -> Separation | None:
    """Good against poor; None if either has no values."""
    if not good or not poor:
        return None
    pairs = len(good) * len(poor)
    ways = math.comb(len(good) + len(poor), len(good))
    higher, p = _mann_whitney(good, poor)
    return Separation(higher, pairs, p, min(2 / ways, 1.0))


def _mann_whitney(good: Sequence[float], poor: Sequence[float]) -> tuple[float, float]:
    """The statistic, which is the count of pairs in which good is higher, and p."""
    together = [*good, *poor]
    tied = len(set(together)) < len(together)
    ways = math.comb(len(together), len(good))
    if tied and ways <= _MOST_WAYS:
        return _permuted(together, len(good))
    found = stats.mannwhitneyu(
        list(good), list(poor), alternative="two-sided", method="asymptotic" if tied else "exact"
    )
    return float(found.statistic), float(found.pvalue)


def _permuted(together: Sequence[float], good: int) -> tuple[float, float]:
    """The same with ties, over every way to deal the values into good and poor."""
    ranks = stats.rankdata(together)
    middle = good * (len(together) + 1) / 2
    seen = float(ranks[:good].sum())
    dealt = np.array([sum(deal) for deal in combinations(ranks.tolist(), good)])
    as_far = np.abs(dealt - middle) >= abs(seen - middle) - 1e-9
    return seen - good * (good + 1) / 2, float(as_far.mean())


def holm(p_values: Sequence[float]) -> tuple[float, ...]:
    """Each p adjusted for there being so many, in the order given."""
    order = sorted(range(len(p_values)), key=lambda k: p_values[k])
    adjusted = [0.0] * len(p_values)
    largest = 0.0
    for rank, k in enumerate(order):
        largest = max(largest, min(1.0, (len(p_values) - rank) * p_values[k]))
        adjusted[k] = largest
    return tuple(adjusted)
