"""Tones: measured, not trusted."""

from itertools import combinations

import numpy as np
import pyloudnorm
import pytest
from numpy.typing import NDArray

from baycue.cues.tones import HIGHEST_PEAK_DBFS, RATE_HZ, SCORES, Tone, tone_for
from baycue.verdict.verdict import Outcome

FloatArray = NDArray[np.float64]
BLOCK = round(0.4 * RATE_HZ)

# Equal temperament from A4 = 440 Hz (ISO 16); values computed, as any table prints them.
E5_HZ, A5_HZ, C6_HZ = 659.255, 880.0, 1046.502

OUTCOMES = list(Outcome)
TONES = {outcome: tone_for(outcome) for outcome in OUTCOMES}


def samples(outcome: Outcome) -> FloatArray:
    return TONES[outcome].samples.astype(np.float64)


def spectrum(signal: FloatArray) -> tuple[FloatArray, FloatArray]:
    length = 1 << 18
    power = np.asarray(np.abs(np.fft.rfft(signal, length)) ** 2, dtype=np.float64)
    return np.asarray(np.fft.rfftfreq(length, 1 / RATE_HZ), dtype=np.float64), power


def strongest_hz(signal: FloatArray) -> float:
    frequencies, power = spectrum(signal * np.hanning(len(signal)))
    return float(frequencies[np.argmax(power)])


def loudness_meter() -> pyloudnorm.Meter:
    return pyloudnorm.Meter(RATE_HZ, filter_class="DeMan")


def loudest_momentary_lkfs(signal: FloatArray) -> float:
    """The loudest 0.4 s: BS.1770 gates in blocks of that length; EBU Tech 3341 "momentary"."""
    padded = np.concatenate([np.zeros(BLOCK), signal, np.zeros(BLOCK)])
    starts = range(0, len(padded) - BLOCK + 1, RATE_HZ // 100)
    meter = loudness_meter()
    return max(float(meter.integrated_loudness(padded[s : s + BLOCK])) for s in starts)


def test_the_meter_itself_reads_the_standards_own_signal_right() -> None:
    # ITU-R BS.1770: a 997 Hz sine of 0 dBFS in one channel reads -3.01 LKFS (value computed).
    sine = np.sin(2 * np.pi * 997 * np.arange(5 * RATE_HZ) / RATE_HZ)
    assert loudness_meter().integrated_loudness(sine) == pytest.approx(-3.01, abs=0.01)


CONTOURS = {
    Outcome.PASS: (E5_HZ, C6_HZ),
    Outcome.FAIL: (C6_HZ, E5_HZ),
    Outcome.TOO_CLOSE: (A5_HZ, A5_HZ, A5_HZ),
}


@pytest.mark.parametrize("outcome", OUTCOMES)
def test_each_note_has_the_pitch_of_the_equal_tempered_scale(outcome: Outcome) -> None:
    heard = []
    for note in SCORES[outcome].notes:
        first = round(note.start_s * RATE_HZ)
        heard.append(strongest_hz(samples(outcome)[first : first + round(note.length_s * RATE_HZ)]))
    assert heard == pytest.approx(list(CONTOURS[outcome]), abs=3.0)


@pytest.mark.parametrize("outcome", OUTCOMES)
def test_the_sound_lies_where_it_is_heard_in_noise(outcome: Outcome) -> None:
    # ISO 7731:2003 asks for energy within 500 to 2500 Hz (read in a secondary source).
    frequencies, power = spectrum(samples(outcome))
    inside = power[(frequencies >= 500) & (frequencies <= 2500)].sum()
    assert inside / power.sum() > 0.999


@pytest.mark.parametrize("outcome", OUTCOMES)
def test_no_peak_is_above_the_stated_one(outcome: Outcome) -> None:
    peak_dbfs = 20 * np.log10(np.abs(samples(outcome)).max())
    assert -12 < peak_dbfs <= HIGHEST_PEAK_DBFS


def test_the_three_are_equally_loud() -> None:
    loudness = [loudest_momentary_lkfs(samples(outcome)) for outcome in OUTCOMES]
    assert loudness == pytest.approx([-13.0] * 3, abs=0.5)


@pytest.mark.parametrize("outcome", OUTCOMES)
def test_no_click_and_no_offset(outcome: Outcome) -> None:
    signal = samples(outcome)
    assert signal[0] == signal[-1] == 0
    assert abs(signal.mean()) < 1e-4
    steepest = 2 * np.pi * 2500 / RATE_HZ
    assert np.abs(np.diff(signal)).max() < steepest * np.abs(signal).max()
    assert np.abs(signal[:48]).max() < 0.1 * np.abs(signal).max()


def loud_parts(outcome: Outcome) -> list[float]:
    """Lengths, s, of the parts of the tone whose envelope is above a quarter of its peak."""
    width = RATE_HZ // 50
    envelope = np.convolve(np.abs(samples(outcome)), np.ones(width) / width, mode="same")
    loud = np.concatenate([[0], (envelope > envelope.max() / 4).astype(int), [0]])
    edges = np.flatnonzero(np.diff(loud))
    return [float(b - a) / RATE_HZ for a, b in zip(edges[::2], edges[1::2], strict=True)]


def test_the_rhythms_differ_without_pitch() -> None:
    assert len(loud_parts(Outcome.TOO_CLOSE)) == 3
    fail = loud_parts(Outcome.FAIL)
    assert len(fail) == 2
    assert fail[1] > 3 * fail[0]
    assert max(loud_parts(Outcome.PASS)) < 0.5 * fail[1]


@pytest.mark.parametrize(("one", "other"), list(combinations(OUTCOMES, 2)))
def test_the_lengths_and_envelopes_differ_pairwise(one: Outcome, other: Outcome) -> None:
    assert abs(TONES[one].length_s - TONES[other].length_s) > 0.14
    length = max(len(samples(one)), len(samples(other)))
    rms = [envelope_of(TONES[outcome], length) for outcome in (one, other)]
    assert np.corrcoef(rms[0], rms[1])[0, 1] < 0.6


def envelope_of(tone: Tone, length: int) -> FloatArray:
    padded = np.zeros(length)
    padded[: len(tone.samples)] = tone.samples
    blocks = padded[: length // 960 * 960].reshape(-1, 960)
    return np.asarray(np.sqrt((blocks**2).mean(axis=1)))
