"""The shaft's angle as a smooth curve through its readings."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import median_filter

from baycue.club.reading import Evidence, ShaftReading
from baycue.swing.curve import Curve, Density, Readings, densified, readings, smooth

FloatArray = NDArray[np.float64]

GRID_S = 0.004
_SLOW_DEG_S, _SLOW_JERK_DENSITY = 300.0, 5e8
_FAST_DEG_S, _FAST_JERK_DENSITY = 1200.0, 1e11
"""How freely the club's angular acceleration drifts, deg^2/s^5, while it turns so slowly or so
fast: little about the top, a lot when the wrists let go and at the strike.  With these a curve
through 90 true motions (the bench's seed 5, noise added) is off by what it says at 60 and 120
frames a second and without bias; with one density for all it could not follow the release."""
_RATES_TOGETHER = 5
_LEAST_SIGMA_DEG = 0.5
_OUTLIER_SIGMAS = 4.0
_FEWEST_READINGS = 8


def on_grid(observed: Readings, noise_density: float | Density) -> Curve:
    """The smooth curve through readings, every ``GRID_S`` from the first to the last.

    It is worked out at the readings and midway between them, where it is least sure, and
    carried from there.
    """
    return _densely(_fitted(observed, noise_density), observed)


def _fitted(observed: Readings, noise_density: float | Density) -> Curve:
    times = observed.times_s
    return smooth(observed, (times[1:] + times[:-1]) / 2, noise_density)


def _densely(fitted: Curve, observed: Readings) -> Curve:
    first_s, last_s = observed.times_s[[0, -1]]
    return densified(fitted, np.arange(first_s, last_s, GRID_S))


def shaft_curve(shaft: tuple[ShaftReading, ...]) -> Curve | None:
    """Angle, deg, over time, s; None if too few frames show the club.

    Readings that the fit finds impossible are left out of another one.
    """
    if sum(r.evidence is Evidence.PICTURE for r in shaft) < _FEWEST_READINGS:
        return None
    observed = _observed(shaft)
    jerks = _jerks(observed)
    fitted = _fitted(observed, jerks)
    keep = _believable(observed, fitted)
    if keep.all():
        return _densely(fitted, observed)
    return on_grid(_only(observed, keep), jerks)


def _jerks(observed: Readings) -> Density:
    """How freely acceleration drifts, by how fast the readings say that the club turns."""
    raw = np.abs(np.gradient(observed.values, observed.times_s))
    rates = median_filter(raw, _RATES_TOGETHER, mode="nearest")
    ends = np.log([_SLOW_JERK_DENSITY, _FAST_JERK_DENSITY])

    def at(times_s: FloatArray) -> FloatArray:
        turning = np.interp(times_s, observed.times_s, rates)
        return np.asarray(np.exp(np.interp(turning, [_SLOW_DEG_S, _FAST_DEG_S], ends)))

    return at


def _observed(shaft: tuple[ShaftReading, ...]) -> Readings:
    sigmas = np.hypot([r.sigma_deg for r in shaft], _LEAST_SIGMA_DEG)
    times = np.array([r.stamp_ns for r in shaft]) * 1e-9
    return readings(times, np.array([r.angle_deg for r in shaft]), sigmas)


def _believable(observed: Readings, fit: Curve) -> NDArray[np.bool_]:
    fitted = np.interp(observed.times_s, fit.times_s, fit.values)
    spread = np.interp(observed.times_s, fit.times_s, fit.sigmas)
    off = np.abs(observed.values - fitted) / np.hypot(observed.sigmas, spread)
    return np.asarray(off < _OUTLIER_SIGMAS)


def _only(observed: Readings, keep: NDArray[np.bool_]) -> Readings:
    return replace(
        observed,
        times_s=observed.times_s[keep],
        values=observed.values[keep],
        sigmas=observed.sigmas[keep],
        rates=observed.rates[keep],
        rate_sigmas=observed.rate_sigmas[keep],
    )
