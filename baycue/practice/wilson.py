"""How sure a rate of passing is: Wilson's score interval.

Wilson 1927, Journal of the American Statistical Association 22:209 (from memory); method 3 of
Newcombe 1998, Statistics in Medicine 17:857, whose table I the tests check against.
"""

from dataclasses import dataclass
from math import floor, sqrt
from statistics import NormalDist


@dataclass(frozen=True, slots=True)
class RateInterval:
    """Two ends of a rate, 0 to 1."""

    low: float
    high: float


def wilson_interval(passes: int, trials: int, confidence: float = 0.95) -> RateInterval:
    """Both ends of the two-sided interval; ValueError unless 0 <= passes <= trials > 0."""
    if not 0 <= passes <= trials or not trials:
        raise ValueError(f"{passes} passes of {trials} trials is no rate")
    z = two_sided_z(confidence)
    share = passes / trials
    middle = share + z**2 / (2 * trials)
    half = z * sqrt(share * (1 - share) / trials + z**2 / (4 * trials**2))
    whole = 1 + z**2 / trials
    return RateInterval(max((middle - half) / whole, 0.0), min((middle + half) / whole, 1.0))


def two_sided_z(confidence: float) -> float:
    """The normal deviate that leaves out half of ``1 - confidence`` at each end."""
    if not 0 < confidence < 1:
        raise ValueError(f"confidence {confidence} is not between 0 and 1")
    return NormalDist().inv_cdf((1 + confidence) / 2)


def fewest_trials(rate: float, confidence: float = 0.95) -> int:
    """How many passes in a row it takes for the lower limit to exceed ``rate`` (below 1).

    With n of n passed the lower limit is n / (n + z^2), which exceeds r from
    n > z^2 r / (1 - r) on.
    """
    z = two_sided_z(confidence)
    return floor(z**2 * rate / (1 - rate)) + 1
