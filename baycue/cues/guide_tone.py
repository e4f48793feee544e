"""The tone that guides a golfer into a window: it beats outside, and steadies inside.

The further off, the faster the beat and the further the pitch from A5: below it for too low, above
for too high.  All of it, the overtone included, lies within the 500 to 2500 Hz of the other tones
(ISO 7731:2003, read in a secondary source).  It is set about 6 dB below them by ITU-R BS.1770, for
it lasts and they must be heard above it.
"""

from dataclasses import dataclass
from math import copysign

import numpy as np
from numpy.typing import NDArray

from baycue.cues.tones import RATE_HZ, Samples
from baycue.practice.hold import Guidance

FloatArray = NDArray[np.float64]

_STEADY_HZ = 880.0
_MOST_SEMITONES = 5.0
_SLOWEST_BEAT_HZ, _FASTEST_BEAT_HZ = 1.5, 10.0
_HALF_WAY_WINDOWS = 3.0
"""So many half widths off, pitch and beat have gone half of their way."""

_GLIDE_S = 0.05
_OVERTONE = 0.25
_GAIN = 0.155
_SILENT = 1e-5
_MOST = 4096


@dataclass(frozen=True, slots=True)
class GuideVoice:
    """What the guide tone is to sound like: its pitch, and how often and how deep it beats.

    ``depth``: 0 steady, 1 down to silence between beats.
    """

    frequency_hz: float
    beat_hz: float
    depth: float


STEADY = GuideVoice(_STEADY_HZ, 0.0, 0.0)


def voice_of(guidance: Guidance) -> GuideVoice:
    """How the tone tells where the golfer is."""
    if guidance.inside:
        return STEADY
    off = abs(guidance.windows_off)
    share = off / (off + _HALF_WAY_WINDOWS)
    semitones = copysign(_MOST_SEMITONES * share, guidance.windows_off)
    beat_hz = _SLOWEST_BEAT_HZ + (_FASTEST_BEAT_HZ - _SLOWEST_BEAT_HZ) * share
    return GuideVoice(_STEADY_HZ * 2 ** (semitones / 12), beat_hz, 1.0)


class GuideTone:
    """Adds a tone to block after block, without a click wherever blocks or voices change.

    Pitch, beat and loudness glide to what ``voice`` asks with a time constant of 50 ms; phases are
    carried on exactly, so that blocks of any length make the same samples.  ``voice`` may be set by
    any thread; None fades out.  ``add_to`` allocates no buffers, as ``Playback`` does not.
    """

    def __init__(self, rate_hz: int = RATE_HZ, volume: float = 1.0) -> None:
        self.voice: GuideVoice | None = None
        self._loudest = _GAIN * volume
        self._phase = self._beat_phase = 0.0
        self._hz, self._beat_hz, self._depth, self._gain = _STEADY_HZ, 0.0, 0.0, 0.0
        self._time_s = np.arange(1, _MOST + 1) / rate_hz
        self._left = np.exp(-self._time_s / _GLIDE_S)
        self._sound, self._other, self._loudness = (np.zeros(_MOST) for _ in range(3))

    def add_to(self, block: Samples) -> None:
        """Add the tone to (n,) or (n, channels) samples."""
        voice = self.voice
        if voice is None and self._gain < _SILENT:
            self._gain = 0.0
            return
        for first in range(0, len(block), _MOST):
            part = block[first : first + _MOST]
            sound = self._next(len(part), voice)
            part += sound if part.ndim == 1 else sound[:, None]

    def _next(self, count: int, voice: GuideVoice | None) -> FloatArray:
        """The next samples, at most ``_MOST``; what glides is carried on to the last."""
        to = voice or GuideVoice(self._hz, self._beat_hz, self._depth)
        gain = 0.0 if voice is None else self._loudest
        sound = self._sound[:count]
        self._fill_loudness(count, to, gain)
        self._phase = self._advance(sound, to.frequency_hz, self._hz, self._phase)
        self._sing(count)
        np.multiply(sound, self._loudness[:count], out=sound)
        self._glide(float(self._left[count - 1]), to, gain)
        return sound

    def _fill_loudness(self, count: int, to: GuideVoice, gain: float) -> None:
        """Gain times 1 - depth (1 - cos(beat)) / 2, both gliding."""
        loudness, other = self._loudness[:count], self._other[:count]
        self._beat_phase = self._advance(loudness, to.beat_hz, self._beat_hz, self._beat_phase)
        np.multiply(loudness, 2 * np.pi, out=loudness)
        np.cos(loudness, out=loudness)
        np.subtract(1.0, loudness, out=loudness)
        self._fill_gliding(other, 0.5 * self._depth, 0.5 * to.depth)
        np.multiply(loudness, other, out=loudness)
        np.subtract(1.0, loudness, out=loudness)
        self._fill_gliding(other, self._gain, gain)
        np.multiply(loudness, other, out=loudness)

    def _sing(self, count: int) -> None:
        """From phases, cycles, to the wave with its overtone."""
        sound, other = self._sound[:count], self._other[:count]
        np.multiply(sound, 2 * np.pi, out=sound)
        np.multiply(sound, 2.0, out=other)
        np.sin(sound, out=sound)
        np.sin(other, out=other)
        np.multiply(other, _OVERTONE, out=other)
        np.add(sound, other, out=sound)

    def _fill_gliding(self, out: FloatArray, start: float, end: float) -> None:
        """From one value to another with the time constant."""
        np.multiply(self._left[: len(out)], start - end, out=out)
        np.add(out, end, out=out)

    def _advance(self, out: FloatArray, to_hz: float, from_hz: float, phase: float) -> float:
        """Phase in cycles into ``out``, the rate gliding; returns where it ends, 0 to 1."""
        count = len(out)
        np.subtract(1.0, self._left[:count], out=out)
        np.multiply(out, (from_hz - to_hz) * _GLIDE_S, out=out)
        np.multiply(self._time_s[:count], to_hz, out=self._other[:count])
        np.add(out, self._other[:count], out=out)
        np.add(out, phase, out=out)
        return float(out[-1]) % 1.0

    def _glide(self, left: float, to: GuideVoice, gain: float) -> None:
        self._hz = to.frequency_hz + (self._hz - to.frequency_hz) * left
        self._beat_hz = to.beat_hz + (self._beat_hz - to.beat_hz) * left
        self._depth = to.depth + (self._depth - to.depth) * left
        self._gain = gain + (self._gain - gain) * left
