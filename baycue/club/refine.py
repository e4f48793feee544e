"""One frame's shaft angle to a fraction of a degree, with its spread and its smear width.

Around the searched path the unrolled picture is compared with every smear of some width,
at some angle, whose line misses the supposed hands by some offset: the pose model's hands
are centimetres off, and an offset ``e`` turns a row seen at radius ``r`` by ``e / r``.
The comparison is a likelihood ratio, so angle, width and spread come out together.
"""

from dataclasses import dataclass

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from baycue.club.background import FloatPicture
from baycue.club.unwrap import ROW_COUNT, ROWS_PER_DEG, Reach, only_faint

FloatArray = NDArray[np.float64]

_SWEEPS_DEG = np.array([1.0, 2.0, 4.0, 7.0, 11.0, 16.0, 23.0, 32.0, 44.0, 58.0])
_GROUPS_FROM_DEG = (6.0, 15.0, 30.0)
_SEARCH_DEG = 14
_OFFSET_SHARES = np.linspace(-0.18, 0.18, 13)
_OFFSET_SIGMA = 0.06
_SHARP_DEG = 2.0
_SWEEP_LOG_SIGMA = 0.25
_ANGLES_DEG = np.arange(-_SEARCH_DEG * ROWS_PER_DEG, _SEARCH_DEG * ROWS_PER_DEG + 1) / ROWS_PER_DEG
_STRETCHES = 10
_LEAST_UNEXPLAINED = 0.001
_EVERY_ROW = 2
_LOUDEST = 6.0
_CORRELATION = 40.0
"""Neighbouring samples share pixels and clutter: so many count as one."""


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


@dataclass(frozen=True, slots=True)
class Nearby:
    """What is looked at: the angles about ``middle_row`` and the first ``sweep_count`` sweeps.

    Expectations that differ by little look at the same.
    """

    middle_row: int
    sweep_count: int


def nearby(expected: Expectation) -> Nearby:
    """What to look at for a shaft that is expected somewhere."""
    sweep_count = len(_possible_sweeps(expected.rate_deg))
    return Nearby(round(expected.angle_deg * ROWS_PER_DEG), sweep_count)


def fit_near(unrolled: FloatPicture, reach: Reach, expected: Expectation) -> LocalFit:
    """The shaft near ``expected`` in one unrolled picture (ROW_COUNT, columns)."""
    return fit_from(gains_near(unrolled, reach, nearby(expected)), expected)


def gains_near(unrolled: FloatPicture, reach: Reach, look: Nearby) -> FloatArray:
    """Gains (offsets, sweeps, angles): what the picture alone says of each."""
    sweeps = _SWEEPS_DEG[: look.sweep_count]
    span = _SEARCH_DEG + round(sweeps[-1] / 2) + 4
    gains = [
        _gains(_straightened(unrolled, alike[0], reach, look.middle_row, span), span, alike)
        for alike in _alike(sweeps)
    ]
    return np.concatenate(gains, axis=1)


def fit_from(gains: FloatArray, expected: Expectation) -> LocalFit:
    """The shaft near ``expected``, from the gains of what lies nearby."""
    sweeps = _possible_sweeps(expected.rate_deg)
    prior = _prior(expected, _ANGLES_DEG, sweeps)
    grid = round(expected.angle_deg * ROWS_PER_DEG) / ROWS_PER_DEG + _ANGLES_DEG
    return _summary(gains - prior, gains, grid, sweeps)


def _possible_sweeps(rate_deg: float) -> FloatArray:
    """The shutter is open for a frame's time at the most, so the smear is no wider than that."""
    return _SWEEPS_DEG[1.15 * abs(rate_deg) + 4.0 >= _SWEEPS_DEG]


def _alike(sweeps_deg: FloatArray) -> list[FloatArray]:
    """Sweeps in groups that one look at the picture serves."""
    groups = np.split(sweeps_deg, np.searchsorted(sweeps_deg, _GROUPS_FROM_DEG))
    return [group for group in groups if len(group)]


def _prior(expected: Expectation, angles: FloatArray, sweeps: FloatArray) -> FloatArray:
    """Half squared misfit (offsets, sweeps, angles) of what was known beforehand."""
    by_angle = (angles / expected.sigma_deg) ** 2
    by_offset = (_OFFSET_SHARES / _OFFSET_SIGMA) ** 2
    by_sweep = np.zeros(len(sweeps))
    if expected.shutter_share is not None:
        usual = np.hypot(expected.shutter_share * expected.rate_deg, _SHARP_DEG)
        by_sweep = (np.log(sweeps / usual) / _SWEEP_LOG_SIGMA) ** 2
    return np.asarray(by_offset[:, None, None] + by_sweep[:, None] + by_angle) / 2


def _straightened(
    unrolled: FloatPicture, smear_deg: float, reach: Reach, middle_row: int, span_deg: int
) -> FloatPicture:
    """Stretch means (offsets, stretches, rows), turned back by each offset's angle, in sigmas.

    What is too loud for a shaft smeared over ``smear_deg`` is left out.
    """
    columns = unrolled.shape[1] // _STRETCHES
    radii = reach.inner_px + columns * (np.arange(_STRETCHES) + 0.5)
    turn_deg = np.degrees(np.arctan2(_OFFSET_SHARES[:, None] * reach.outer_px, radii))
    shifts = np.round(turn_deg * ROWS_PER_DEG).astype(int)
    half, most = span_deg * ROWS_PER_DEG, int(np.abs(shifts).max())
    near = np.arange(middle_row - half - most, middle_row + half + most + 1) % ROW_COUNT
    faint = only_faint(unrolled[near, : columns * _STRETCHES], smear_deg)
    used = np.clip(faint, -_LOUDEST, _LOUDEST)
    means = used.reshape(len(near), _STRETCHES, columns).mean(axis=2) * np.float32(columns**0.5)
    windows = sliding_window_view(np.ascontiguousarray(means.T), 2 * half + 1, axis=1)
    return np.asarray(windows[np.arange(_STRETCHES), most + shifts])


def _gains(straightened: FloatPicture, span_deg: int, sweeps_deg: FloatArray) -> FloatArray:
    """Gains (offsets, sweeps, angles) over what stands out of the local median."""
    # An odd number of rows; sorting all of them is faster than numpy's median.
    ranked = np.sort(straightened[:, :, ::_EVERY_ROW], axis=2)
    local = straightened - ranked[:, :, ranked.shape[2] // 2, None]
    sums = np.zeros((*local.shape[:2], local.shape[2] + 1))
    np.cumsum(local, axis=2, out=sums[:, :, 1:])
    total = np.einsum("ijk,ijk->ij", local, local)[:, :, None] + local.shape[2]
    widths = [_gain_of_width(sums, total, span_deg, w) for w in sweeps_deg]
    return np.stack(widths, axis=1) / _CORRELATION


def _gain_of_width(
    sums: FloatArray, total: FloatPicture, span_deg: int, width_deg: float
) -> FloatArray:
    """Log likelihood ratio (offsets, angles) of a smear of one width, noise level unknown.

    For each stretch N/2 log(S0 / S1), the Gaussian likelihood ratio of a step of free
    height over none; summed over stretches.  ``sums``: running sums along the rows.
    """
    half = max(round(width_deg * ROWS_PER_DEG / 2), 1)
    first, count = (span_deg - _SEARCH_DEG) * ROWS_PER_DEG, len(_ANGLES_DEG)
    after, before = first + half + 1, first - half
    inside = sums[:, :, after : after + count] - sums[:, :, before : before + count]
    unexplained = 1 - inside**2 / ((2 * half + 1) * total)
    # One logarithm of the product is a tenth of the work of ten.
    left = np.maximum(unexplained, _LEAST_UNEXPLAINED).prod(axis=1)
    return np.asarray(-0.5 * (sums.shape[2] - 1) * np.log(left))


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
