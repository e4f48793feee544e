"""One frame's shaft angle to a fraction of a degree, with its spread and its smear width.

Around the searched path the unrolled picture is compared with every smear of some width,
at some angle, whose line misses the supposed hands by some offset: the pose model's hands
are centimetres off, and an offset ``e`` turns a row seen at radius ``r`` by ``e / r``.
The comparison is a likelihood ratio, so angle, width and spread come out together.
"""

from dataclasses import dataclass

import numpy as np
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
_STRETCHES = 10
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


def fit_near(unrolled: FloatPicture, reach: Reach, expected: Expectation) -> LocalFit:
    """The shaft near ``expected`` in one unrolled picture (ROW_COUNT, columns)."""
    sweeps = _possible_sweeps(expected.rate_deg)
    span = _SEARCH_DEG + round(sweeps[-1] / 2) + 4
    middle_row = round(expected.angle_deg * ROWS_PER_DEG)
    angles = np.arange(-_SEARCH_DEG * ROWS_PER_DEG, _SEARCH_DEG * ROWS_PER_DEG + 1) / ROWS_PER_DEG
    centres = (angles * ROWS_PER_DEG).astype(int) + span * ROWS_PER_DEG
    gains = np.concatenate(
        [
            _gains(
                _straightened(only_faint(unrolled, alike[0]), reach, middle_row, span),
                centres,
                alike,
            )
            for alike in _alike(sweeps)
        ],
        axis=1,
    )
    prior = _prior(expected, angles, sweeps)
    grid = round(expected.angle_deg * ROWS_PER_DEG) / ROWS_PER_DEG + angles
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
    unrolled: FloatPicture, reach: Reach, middle_row: int, span_deg: int
) -> FloatPicture:
    """Stretch means (offsets, stretches, rows), turned back by each offset's angle, in sigmas."""
    columns = unrolled.shape[1] // _STRETCHES
    radii = reach.inner_px + columns * (np.arange(_STRETCHES) + 0.5)
    turn_deg = np.degrees(np.arctan2(_OFFSET_SHARES[:, None] * reach.outer_px, radii))
    shifts = np.round(turn_deg * ROWS_PER_DEG).astype(int)
    half, most = span_deg * ROWS_PER_DEG, int(np.abs(shifts).max())
    near = np.arange(middle_row - half - most, middle_row + half + most + 1) % ROW_COUNT
    used = np.clip(unrolled[near, : columns * _STRETCHES], -_LOUDEST, _LOUDEST)
    means = used.reshape(len(near), _STRETCHES, columns).mean(axis=2) * np.float32(columns**0.5)
    rows = shifts[:, :, None] + (np.arange(2 * half + 1) + most)
    return np.ascontiguousarray(means.T[np.arange(_STRETCHES)[:, None], rows])


def _gains(
    straightened: FloatPicture, centres: NDArray[np.intp], sweeps_deg: FloatArray
) -> FloatArray:
    """Gains (offsets, sweeps, angles) over what stands out of the local median."""
    usual = np.median(straightened[:, :, ::_EVERY_ROW], axis=2, keepdims=True)
    local = straightened - usual
    start = np.zeros_like(local[:, :, :1])
    sums = np.concatenate([start, np.cumsum(local, axis=2)], axis=2, dtype=np.float64)
    total = (local**2).sum(axis=2, keepdims=True) + local.shape[2]
    widths = [_gain_of_width(sums, total, centres, w) for w in sweeps_deg]
    return np.stack(widths, axis=1) / _CORRELATION


def _gain_of_width(
    sums: FloatArray, total: FloatPicture, centres: NDArray[np.intp], width_deg: float
) -> FloatArray:
    """Log likelihood ratio (offsets, angles) of a smear of one width, noise level unknown.

    For each stretch N/2 log(S0 / S1), the Gaussian likelihood ratio of a step of free
    height over none; summed over stretches.  ``sums``: running sums along the rows.
    """
    half = max(round(width_deg * ROWS_PER_DEG / 2), 1)
    inside = sums[:, :, centres + half + 1] - sums[:, :, centres - half]
    explained = inside**2 / (2 * half + 1)
    gain = -0.5 * (sums.shape[2] - 1) * np.log1p(-np.minimum(explained / total, 0.999))
    return np.asarray(gain.sum(axis=1))


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
