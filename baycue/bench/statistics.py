"""Plain statistics of errors, and of how well stated sigmas cover them."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from scipy.stats import norm, t

_ONE_SIGMA_SHARE = float(norm.cdf(1) - norm.cdf(-1))


@dataclass(frozen=True, slots=True)
class Errors:
    """Errors of one quantity, in its unit; all NaN if there are none.

    ``bias`` is the mean, ``median`` and ``p95`` are of the sizes (p95 interpolates linearly).
    ``missing`` counts swings in which the quantity was not found.
    """

    count: int
    missing: int
    bias: float
    rms: float
    median: float
    p95: float


@dataclass(frozen=True, slots=True)
class Coverage:
    """The shares, 0 to 1, of true values within the stated 68 % and 95 % intervals."""

    count: int
    within_68: float
    within_95: float


def errors_of(values: Sequence[float], missing: int = 0) -> Errors:
    """Summarise errors (stated less true)."""
    if not values:
        return Errors(0, missing, *[float("nan")] * 4)
    errors = np.asarray(values, dtype=np.float64)
    sizes = np.abs(errors)
    return Errors(
        count=len(errors),
        missing=missing,
        bias=float(errors.mean()),
        rms=float(np.sqrt(np.mean(errors**2))),
        median=float(np.median(sizes)),
        p95=float(np.percentile(sizes, 95)),
    )


def within_sigmas(share: float, freedom: float = float("inf")) -> float:
    """Half-width of the interval that is said to hold ``share`` of all, in one-sigmas.

    A one-sigma holds as much as a normal distribution's.  ``freedom``: degrees of freedom of
    Student's t; infinitely many are the normal distribution.
    """
    wide, one = t.ppf((1 + np.array([share, _ONE_SIGMA_SHARE])) / 2, freedom)
    return float(wide / one)


def coverage_of(
    errors: Sequence[float], sigmas: Sequence[float], freedom: float = float("inf")
) -> Coverage:
    """How often the truth lies within the stated intervals; ``freedom`` as in ``within_sigmas``."""
    if not errors:
        return Coverage(0, float("nan"), float("nan"))
    sizes, spread = np.abs(np.asarray(errors)), np.asarray(sigmas)
    held = [sizes <= within_sigmas(share, freedom) * spread for share in (0.68, 0.95)]
    return Coverage(len(sizes), *(float(np.mean(each)) for each in held))
