"""The three tones: they differ in contour, rhythm and length, so that no ear needs pitch alone.

    pass       two short notes rising, struck like a bell
    fail       two notes falling, the second long and held
    too close  three equal pulses on one note

All sound lies within 500 to 2500 Hz, the band a danger signal is asked to have so as to be heard
in noise (ISO 7731:2003, read in a secondary source); a practice bay is such a place.  The three
are set to one loudness by ITU-R BS.1770, and no peak is above -3 dBFS.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from baycue.verdict.verdict import Outcome

RATE_HZ = 48_000
HIGHEST_PEAK_DBFS = -3.0

Samples = NDArray[np.float32]

_ATTACK_S = 0.008
_RELEASE_S = 0.030
_OVERTONE = 0.25
_A4_HZ = 440.0


@dataclass(frozen=True, slots=True)
class Note:
    """A pitch in semitones above A4, its start and length; ``decay_s`` is the fall to 1/e."""

    semitones_above_a4: int
    start_s: float
    length_s: float
    decay_s: float = float("inf")

    @property
    def frequency_hz(self) -> float:
        """Equal temperament: A4 is 440 Hz and each semitone is a twelfth root of two (ISO 16)."""
        return float(_A4_HZ * 2 ** (self.semitones_above_a4 / 12))


@dataclass(frozen=True, slots=True)
class Score:
    """The notes of a tone and the gain that brings it to the common loudness."""

    notes: tuple[Note, ...]
    gain: float

    @property
    def length_s(self) -> float:
        """From the first sample to the last, seconds."""
        return max(note.start_s + note.length_s for note in self.notes)


@dataclass(frozen=True, slots=True)
class Tone:
    """A finished tone: (n,) float32 samples within -1 to 1, one channel."""

    outcome: Outcome
    samples: Samples
    rate_hz: int

    @property
    def length_s(self) -> float:
        """Seconds."""
        return len(self.samples) / self.rate_hz


_E5, _A5, _C6 = 7, 12, 15

SCORES = {
    Outcome.PASS: Score((Note(_E5, 0.0, 0.14, 0.12), Note(_C6, 0.14, 0.30, 0.12)), 0.611),
    Outcome.FAIL: Score((Note(_C6, 0.0, 0.20), Note(_E5, 0.22, 0.68)), 0.323),
    Outcome.TOO_CLOSE: Score(tuple(Note(_A5, at, 0.10) for at in (0.0, 0.25, 0.50)), 0.501),
}


def tone_for(outcome: Outcome) -> Tone:
    """The tone of an outcome at ``RATE_HZ``."""
    return Tone(outcome, render(SCORES[outcome], RATE_HZ), RATE_HZ)


def render(score: Score, rate_hz: int) -> Samples:
    """(n,) samples of a score, first and last exactly zero."""
    total = np.zeros(round(score.length_s * rate_hz) + 1)
    for note in score.notes:
        samples = _note_samples(note, rate_hz)
        first = round(note.start_s * rate_hz)
        total[first : first + len(samples)] += samples
    return (score.gain * total).astype(np.float32)


def _note_samples(note: Note, rate_hz: int) -> NDArray[np.float64]:
    time_s = np.arange(round(note.length_s * rate_hz) + 1) / rate_hz
    phase = 2 * np.pi * note.frequency_hz * time_s
    wave = np.sin(phase) + _OVERTONE * np.sin(2 * phase)
    return np.asarray(wave * np.exp(-time_s / note.decay_s) * _ramps(time_s))


def _ramps(time_s: NDArray[np.float64]) -> NDArray[np.float64]:
    """Raised-cosine rise and fall, so that no edge clicks."""
    rise = np.clip(time_s / _ATTACK_S, 0, 1)
    fall = np.clip((time_s[-1] - time_s) / _RELEASE_S, 0, 1)
    return np.asarray((1 - np.cos(np.pi * rise)) / 2 * (1 - np.cos(np.pi * fall)) / 2)
