"""One frame's shaft angle to a fraction of a degree, with its spread and its smear width.

Around the searched path the picture tells how much better each smear explains it than no shaft
does (``gains``); that is a likelihood ratio, so angle, width and spread come out together.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.background import FloatPicture
from baycue.club.gains import ANGLES_DEG, OFFSET_SHARES, SWEEPS_DEG, Nearby, gains_near
from baycue.club.unwrap import ROWS_PER_DEG, Reach

FloatArray = NDArray[np.float64]

_OFFSET_SIGMA = 0.06
_SHARP_DEG = 2.0
_SWEEP_LOG_SIGMA = 0.25


@dataclass(frozen=True, slots=True)
class LocalFit:
    """Angle and its one-sigma, and the smear, deg, and the gain.

    ``gain`` is the log likelihood ratio against there being no shaft here.
    """

    angle_deg: float
    sigma_deg: float
    sweep_deg: float
    gain: float


@dataclass(frozen=True, slots=True)
class Expectation:
    """What is known before the close look: angle, its spread, turning rate a frame.

    ``shutter_share``: the part of a frame's time that the shutter is open, None if unknown.
    """

    angle_deg: float
    sigma_deg: float
    rate_deg: float
    shutter_share: float | None = None


def nearby(expected: Expectation) -> Nearby:
    """What to look at for a shaft that is expected somewhere."""
    sweep_count = len(_possible_sweeps(expected.rate_deg))
    return Nearby(round(expected.angle_deg * ROWS_PER_DEG), sweep_count)


def fit_near(
    unrolled: FloatPicture, reach: Reach, expected: Expectation, loudest: float
) -> LocalFit:
    """The shaft near ``expected`` in one unrolled picture (ROW_COUNT, columns).

    ``loudest``: the picture's ``loudest_smear``.
    """
    return fit_from(gains_near(unrolled, reach, nearby(expected), loudest), expected)


def fit_from(gains: FloatArray, expected: Expectation) -> LocalFit:
    """The shaft near ``expected``, from the gains of what lies nearby."""
    sweeps = _possible_sweeps(expected.rate_deg)
    prior = _prior(expected, ANGLES_DEG, sweeps)
    grid = round(expected.angle_deg * ROWS_PER_DEG) / ROWS_PER_DEG + ANGLES_DEG
    return _summary(gains - prior, gains, grid, sweeps)


def _possible_sweeps(rate_deg: float) -> FloatArray:
    """The shutter is open for a frame's time at the most, so the smear is no wider than that."""
    return SWEEPS_DEG[1.15 * abs(rate_deg) + 4.0 >= SWEEPS_DEG]


def _prior(expected: Expectation, angles: FloatArray, sweeps: FloatArray) -> FloatArray:
    """Half squared misfit (offsets, sweeps, angles) of what was known beforehand."""
    by_angle = (angles / expected.sigma_deg) ** 2
    by_offset = (OFFSET_SHARES / _OFFSET_SIGMA) ** 2
    by_sweep = np.zeros(len(sweeps))
    if expected.shutter_share is not None:
        usual = np.hypot(expected.shutter_share * expected.rate_deg, _SHARP_DEG)
        by_sweep = (np.log(sweeps / usual) / _SWEEP_LOG_SIGMA) ** 2
    return np.asarray(by_offset[:, None, None] + by_sweep[:, None] + by_angle) / 2


def _summary(
    posterior: FloatArray, gains: FloatArray, angles_deg: FloatArray, sweeps_deg: FloatArray
) -> LocalFit:
    peak = np.unravel_index(int(np.argmax(posterior)), posterior.shape)
    weights = np.exp(posterior - posterior[peak])
    weights /= weights.sum()
    by_angle = weights.sum(axis=(0, 1))
    angle = float(by_angle @ angles_deg)
    spread = float(np.sqrt(by_angle @ (angles_deg - angle) ** 2))
    sweep = float(weights.sum(axis=(0, 2)) @ sweeps_deg)
    return LocalFit(angle, _error_of_spread(spread), sweep, float(gains[peak]))


def _error_of_spread(spread_deg: float) -> float:
    """One-sigma error that goes with a posterior spread: a fit to synthetic swings' truth.

    Small spreads overstate the error, for the correlation is allowed for generously; large
    ones, where legs and arms move behind the shaft, do not.
    """
    return max(0.25 * spread_deg + 0.14 * spread_deg**2, 0.3)
