"""How much better each smear of a shaft explains one picture than no shaft does.

The unrolled picture is compared with every smear of some width, at some angle, whose line
misses the supposed hands by some offset: the pose model's hands are centimetres off, and an
offset ``e`` turns a row seen at radius ``r`` by ``e / r``.  For each stretch of the shaft it is
N/2 log(S0 / S1), the Gaussian likelihood ratio of a step of free height over none with the noise
level unknown; summed over stretches.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.club.background import FloatPicture
from baycue.club.unwrap import ROW_COUNT, ROWS_PER_DEG, Reach, only_faint

FloatArray = NDArray[np.float64]

SWEEPS_DEG = np.array([1.0, 2.0, 4.0, 7.0, 11.0, 16.0, 23.0, 32.0, 44.0, 58.0])
OFFSET_SHARES = np.linspace(-0.18, 0.18, 13)
SEARCH_DEG = 14
ANGLES_DEG = np.arange(-SEARCH_DEG * ROWS_PER_DEG, SEARCH_DEG * ROWS_PER_DEG + 1) / ROWS_PER_DEG

_GROUPS_FROM_DEG = (6.0, 15.0, 30.0)
_STRETCHES = 10
_EACH_STRETCH = np.arange(_STRETCHES)
_LEAST_UNEXPLAINED = 0.001
_EVERY_ROW = 2
_LOUDEST = 6.0
_CORRELATION = 40.0
"""Neighbouring samples share pixels and clutter: so many count as one."""


@dataclass(frozen=True, slots=True)
class Nearby:
    """What is looked at: the angles about ``middle_row`` and the first ``sweep_count`` sweeps.

    Expectations that differ by little look at the same.
    """

    middle_row: int
    sweep_count: int


@dataclass(frozen=True, slots=True, eq=False)
class _Windows:
    """The rows looked at, a window of ``length`` for each offset and stretch.

    ``starts``: (offsets, 1), or by stretch (offsets, stretches), its first of the rows at hand.
    """

    starts: NDArray[np.intp]
    length: int


@dataclass(frozen=True, slots=True, eq=False)
class _Means:
    """Stretch means, in sigmas, as far as they are not too loud for some smears.

    ``sums``: (stretches, rows + 1), running along the rows.  ``middles``: (offsets, stretches),
    each window's median; ``unlike``: the same, what there is about it, squared, and the noise.
    """

    sums: FloatArray
    middles: FloatArray
    unlike: FloatArray


def gains_near(unrolled: FloatPicture, reach: Reach, look: Nearby, loudest: float) -> FloatArray:
    """Gains (offsets, sweeps, angles): what the picture alone says of each.

    ``loudest``: the picture's ``loudest_smear``.
    """
    sweeps = SWEEPS_DEG[: look.sweep_count]
    span_deg = SEARCH_DEG + round(sweeps[-1] / 2) + 4
    columns = unrolled.shape[1] // _STRETCHES
    shifts = _shifts(reach, columns)
    half, most = span_deg * ROWS_PER_DEG, int(np.abs(shifts).max())
    near = np.arange(look.middle_row - half - most, look.middle_row + half + most + 1) % ROW_COUNT
    part = np.ascontiguousarray(unrolled[near, : columns * _STRETCHES].T)
    windows = _Windows(most + shifts, 2 * half + 1)
    gains = np.empty((len(OFFSET_SHARES), len(sweeps), len(ANGLES_DEG)))
    done = 0
    for alike in _alike(sweeps):
        means = _means(only_faint(part, float(alike[0]), loudest), windows)
        for width_deg in alike:
            gains[:, done] = _gain_of_width(means, windows, float(width_deg))
            done += 1
    return gains


def _alike(sweeps_deg: FloatArray) -> list[FloatArray]:
    """Sweeps in groups that one look at the picture serves."""
    groups = np.split(sweeps_deg, np.searchsorted(sweeps_deg, _GROUPS_FROM_DEG))
    return [group for group in groups if len(group)]


def _shifts(reach: Reach, columns: int) -> NDArray[np.intp]:
    """By how many rows each offset turns each stretch, (offsets, stretches)."""
    radii = reach.inner_px + columns * (np.arange(_STRETCHES) + 0.5)
    turn_deg = np.degrees(np.arctan2(OFFSET_SHARES[:, None] * reach.outer_px, radii))
    return np.asarray(np.round(turn_deg * ROWS_PER_DEG), dtype=np.intp)


def _means(part: FloatPicture, windows: _Windows) -> _Means:
    """``part``: (columns, rows), without what is too loud for a shaft so smeared."""
    used = np.clip(part, -_LOUDEST, _LOUDEST)
    columns = len(part) // _STRETCHES
    each = used.reshape(_STRETCHES, columns, -1).sum(axis=1) * np.float32(columns**-0.5)
    sums, squares = _running(each), _running(each * each)
    # An odd number of rows; sorting all of them is faster than numpy's median.
    ranked = np.sort(_seen(each, windows.starts, windows.length)[:, :, ::_EVERY_ROW], axis=2)
    middles = ranked[:, :, ranked.shape[2] // 2].astype(np.float64)
    ends = windows.starts + windows.length
    whole, whole_squares = (
        s[_EACH_STRETCH, ends] - s[_EACH_STRETCH, windows.starts] for s in (sums, squares)
    )
    about = whole_squares - middles * (2 * whole - windows.length * middles)
    return _Means(sums, middles, about + windows.length)


def _running(values: FloatPicture) -> FloatArray:
    """Sums of the first 0, 1, 2 and so on of each row."""
    sums = np.zeros((len(values), values.shape[1] + 1))
    np.cumsum(values, axis=1, out=sums[:, 1:])
    return sums


def _gain_of_width(means: _Means, windows: _Windows, width_deg: float) -> FloatArray:
    """Gains (offsets, angles) of one width over what stands out of the windows' medians."""
    half = max(round(width_deg * ROWS_PER_DEG / 2), 1)
    rows = 2 * half + 1
    first = (windows.length - len(ANGLES_DEG)) // 2 - half
    smears = means.sums[:, rows:] - means.sums[:, :-rows]
    inside = _seen(smears, windows.starts + first, len(ANGLES_DEG))
    inside -= (rows * means.middles)[:, :, None]
    inside *= inside
    inside *= (-1 / (rows * means.unlike))[:, :, None]
    inside += 1
    # One logarithm of the product is a tenth of the work of ten.
    left = np.maximum(inside, _LEAST_UNEXPLAINED, out=inside).prod(axis=1)
    return np.asarray(-0.5 / _CORRELATION * windows.length * np.log(left))


def _seen(
    rows: NDArray[np.floating], starts: NDArray[np.intp], length: int
) -> NDArray[np.floating]:
    """The stretch of each of (stretches, rows) from each start, (offsets, stretches, length)."""
    step, each = rows.strides
    shape = (len(rows), rows.shape[1] - length + 1, length)
    # As numpy's sliding_window_view, in a twentieth of its time.
    windows = np.ndarray(shape, rows.dtype, rows, strides=(step, each, each))
    return windows[_EACH_STRETCH, starts]
