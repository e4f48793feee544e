"""The shaft's angle as a smooth curve through its readings."""

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from baycue.club.reading import Evidence, ShaftReading
from baycue.swing.curve import Curve, Readings, densified, readings, smooth

FloatArray = NDArray[np.float64]

GRID_S = 0.004
_JERK_DENSITY = 2e9
"""How freely the club's angular acceleration drifts, deg^2/s^5."""
_LEAST_SIGMA_DEG = 0.5
_OUTLIER_SIGMAS = 4.0
_FEWEST_READINGS = 8


def on_grid(observed: Readings, noise_density: float) -> Curve:
    """The smooth curve through readings, every ``GRID_S`` from the first to the last.

    It is worked out at the readings and midway between them, where it is least sure, and
    carried from there.
    """
    times = observed.times_s
    fitted = smooth(observed, (times[1:] + times[:-1]) / 2, noise_density)
    return densified(fitted, np.arange(times[0], times[-1], GRID_S))


def shaft_curve(shaft: tuple[ShaftReading, ...]) -> Curve | None:
    """Angle, deg, over time, s; None if too few frames show the club.

    Readings that the first fit finds impossible are left out of the second.
    """
    if sum(r.evidence is Evidence.PICTURE for r in shaft) < _FEWEST_READINGS:
        return None
    observed = _observed(shaft)
    first = smooth(observed, observed.times_s, _JERK_DENSITY)
    return on_grid(_without_outliers(observed, first), _JERK_DENSITY)


def _observed(shaft: tuple[ShaftReading, ...]) -> Readings:
    sigmas = np.hypot([r.sigma_deg for r in shaft], _LEAST_SIGMA_DEG)
    times = np.array([r.stamp_ns for r in shaft]) * 1e-9
    return readings(times, np.array([r.angle_deg for r in shaft]), sigmas)


def _without_outliers(observed: Readings, fit: Curve) -> Readings:
    fitted = np.interp(observed.times_s, fit.times_s, fit.values)
    spread = np.interp(observed.times_s, fit.times_s, fit.sigmas)
    off = np.abs(observed.values - fitted) / np.hypot(observed.sigmas, spread)
    keep = off < _OUTLIER_SIGMAS
    return replace(
        observed,
        times_s=observed.times_s[keep],
        values=observed.values[keep],
        sigmas=observed.sigmas[keep],
        rates=observed.rates[keep],
        rate_sigmas=observed.rate_sigmas[keep],
    )
