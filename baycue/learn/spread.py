"""What a few swings say of the next one like them: mean, spread and prediction limits.

A prediction limit for one more value of a normal population, from the mean m and the standard
deviation s of n values: m -/+ t s sqrt(1 + 1/n), t the quantile of Student's distribution with
n - 1 degrees of freedom (Montgomery and Runger, Applied Statistics and Probability for Engineers,
the section on prediction intervals; Hahn and Meeker, Statistical Intervals).  It is wider than
the mean's own interval, and the wider the fewer the swings.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy import stats

LEAST_SWINGS = 3
"""With two, one degree of freedom, t at 95 % is 6.3: no threshold anyone could use."""


@dataclass(frozen=True, slots=True)
class Spread:
    """Some values: how many, their mean, standard deviation (n - 1), least and largest."""

    count: int
    mean: float
    deviation: float
    least: float
    largest: float

    def limit_below(self, share: float) -> float:
        """Above it lies one more such value with probability ``share``, 0 to 1."""
        return self.mean - self._reach(share)

    def limit_above(self, share: float) -> float:
        """Below it lies one more such value with probability ``share``."""
        return self.mean + self._reach(share)

    def limits(self, share: float) -> tuple[float, float]:
        """Between them lies one more such value with probability ``share``."""
        reach = self._reach((1 + share) / 2)
        return self.mean - reach, self.mean + reach

    def _reach(self, quantile: float) -> float:
        if self.count < LEAST_SWINGS:
            raise ValueError(f"{self.count} swings; {LEAST_SWINGS} are the least for a limit")
        t = float(stats.t.ppf(quantile, self.count - 1))
        return t * self.deviation * math.sqrt(1 + 1 / self.count)


def spread_of(values: Sequence[float]) -> Spread | None:
    """The spread of some values; None if there are none."""
    if not values:
        return None
    seen = np.asarray(values, dtype=float)
    deviation = float(seen.std(ddof=1)) if len(seen) > 1 else 0.0
    return Spread(len(seen), float(seen.mean()), deviation, float(seen.min()), float(seen.max()))
