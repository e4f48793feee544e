"""Finding the click of club on ball in a stretch of sound.

A strike is broadband and sudden: within two milliseconds the sound rises far above the running
noise in every band at once, up to the highest, and is nearly gone soon after.  Voices are weak
in the upper bands or rise slowly; hall and hum have no onset.  A clap is as sudden as a strike:
only the window about the strike that was seen keeps it out.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray
from scipy.ndimage import median_filter, uniform_filter1d
from scipy.signal import butter, sosfilt

FloatArray = NDArray[np.float64]

_BANDS_HZ = ((1500.0, 3000.0), (3000.0, 6000.0), (6000.0, 11000.0))
_STEP_S = 0.001
_NOISE_S = 0.4
_RISE_STEPS = 3
_LEAST_RISE_DB, _LEAST_ABOVE_DB = 9.0, 12.0
"""In every band: over the sound just before, and over the running noise."""
_LEAST_MEAN_DB = 16.0
_GONE_S, _GONE_DB = 0.080, 8.0
"""So much later the sound has fallen by so much, hall or not."""
_TIMING_SIGMA_S = 0.0007
_FLOOR = 1e-12


@dataclass(frozen=True, slots=True)
class Strike:
    """``time_s``: from the first sample; ``above_noise_db``: over the bands' running noise."""

    time_s: float
    sigma_s: float
    above_noise_db: float


def strike_in(
    samples: NDArray[np.float32], rate_hz: float, between: tuple[float, float]
) -> Strike | None:
    """The loudest click that begins within ``between`` (s from the first sample), or None.

    ``samples``: (n,), -1 to 1, at 24 kHz or more, with some 0.2 s before the window so that the
    noise is known.  Raises ValueError for a lower rate or a window outside the samples.
    """
    _check(len(samples) / rate_hz, rate_hz, between)
    steps = _levels_db(samples, rate_hz)
    above, rise, fall = _over_noise(steps), _rise(steps), _fall(steps)
    first, last = (int(edge / _STEP_S) for edge in between)
    score = np.where(_is_click(above, rise, fall), above.mean(axis=0), -np.inf)
    window = score[first : last + 1]
    if not len(window) or not np.isfinite(window.max()):
        return None
    best = first + int(np.argmax(window))
    time_s = _onset_s(samples, rate_hz, best)
    if not between[0] <= time_s <= between[1]:
        return None
    return Strike(time_s, _TIMING_SIGMA_S, float(score[best]))


def _check(length_s: float, rate_hz: float, between: tuple[float, float]) -> None:
    if rate_hz < 2 * _BANDS_HZ[-1][1] + 2000:
        raise ValueError(f"{rate_hz:.0f} Hz: a strike needs 24000 Hz or more")
    if not 0 <= between[0] < between[1] <= length_s:
        raise ValueError(f"{between} s lies outside the {length_s:.3f} s of sound")


def _levels_db(samples: NDArray[np.float32], rate_hz: float) -> FloatArray:
    """(bands, steps) mean power of each millisecond, dB."""
    size = round(_STEP_S * rate_hz)
    count = len(samples) // size
    levels = []
    for low, high in _BANDS_HZ:
        sound = sosfilt(butter(2, (low, high), "bandpass", fs=rate_hz, output="sos"), samples)
        power = np.asarray(sound[: count * size]).reshape(count, size) ** 2
        levels.append(10 * np.log10(power.mean(axis=1) + _FLOOR))
    return np.array(levels)


def _over_noise(levels: FloatArray) -> FloatArray:
    """Over the running noise: the median of so long about each step."""
    length = 2 * (min(round(_NOISE_S / _STEP_S), levels.shape[1]) // 2) + 1
    return np.asarray(levels - median_filter(levels, size=(1, length), mode="nearest"))


def _rise(levels: FloatArray) -> FloatArray:
    """Over the mean level of the ten steps before the last few."""
    before = uniform_filter1d(levels, 10, axis=1, origin=-5, mode="nearest")
    shifted = np.roll(uniform_filter1d(levels, 10, axis=1, origin=4, mode="nearest"), _RISE_STEPS)
    shifted[:, : _RISE_STEPS + 1] = before[:, : _RISE_STEPS + 1]
    return np.asarray(levels - shifted)


def _fall(levels: FloatArray) -> FloatArray:
    """How far the sound has fallen a while later."""
    later = round(_GONE_S / _STEP_S)
    smooth = uniform_filter1d(levels, 10, axis=1, mode="nearest")
    after = np.concatenate([smooth[:, later:], np.repeat(smooth[:, -1:], later, axis=1)], axis=1)
    return np.asarray(levels - after[:, : levels.shape[1]])


def _is_click(above: FloatArray, rise: FloatArray, fall: FloatArray) -> NDArray[np.bool_]:
    sudden = (rise.min(axis=0) > _LEAST_RISE_DB) & (above.min(axis=0) > _LEAST_ABOVE_DB)
    loud = above.mean(axis=0) > _LEAST_MEAN_DB
    return np.asarray(sudden & loud & (fall.mean(axis=0) > _GONE_DB))


def _onset_s(samples: NDArray[np.float32], rate_hz: float, step: int) -> float:
    """Where the sound first reaches a third of the click's peak."""
    low = _BANDS_HZ[0][0]
    first = max(round((step - 4) * _STEP_S * rate_hz), 0)
    part = samples[first : round((step + 3) * _STEP_S * rate_hz)]
    loud = np.abs(sosfilt(butter(2, low, "highpass", fs=rate_hz, output="sos"), part))
    return float(first + np.argmax(loud >= loud.max() / 3)) / rate_hz
