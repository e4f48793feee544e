"""The strike's click in invented sound whose onset is known."""

import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.ear.impact import (
    SPEED_OF_SOUND_M_S,
    HeardStrike,
    Hearing,
    Struck,
    heard_strike,
    impact_from,
)
from baycue.ear.microphone import listen_for
from baycue.ear.ring import Sound, SoundRing
from baycue.ear.strike import Strike, strike_in

RATE_HZ = 48_000
LENGTH_S, AT_S = 2.0, 1.2
WINDOW = (1.1, 1.3)
FloatArray = NDArray[np.float64]


def noise(colour: str, rms: float, seed: int) -> FloatArray:
    """White noise, or pink: power falls as one over frequency."""
    count = round(LENGTH_S * RATE_HZ)
    spectrum = np.fft.rfft(np.random.default_rng(seed).normal(size=count))
    if colour == "pink":
        spectrum /= np.sqrt(np.maximum(np.arange(len(spectrum)), 1))
    sound = np.fft.irfft(spectrum, count)
    return np.asarray(rms * sound / sound.std())


def click(at_s: float, peak: float, seed: int = 5) -> FloatArray:
    """Invented: a burst of noise that starts at once and falls to 1/e in 1.5 ms."""
    sound = np.zeros(round(LENGTH_S * RATE_HZ))
    first = round(at_s * RATE_HZ)
    time_s = np.arange(round(0.03 * RATE_HZ)) / RATE_HZ
    burst = np.random.default_rng(seed).uniform(-1, 1, len(time_s)) * np.exp(-time_s / 0.0015)
    burst[0] = 1.0
    sound[first : first + len(burst)] = peak * burst
    return sound


def in_a_hall(sound: FloatArray, reverberation_s: float = 0.9, seed: int = 3) -> FloatArray:
    """With an exponential tail of noise, 60 dB down after the time given (Sabine's RT60)."""
    time_s = np.arange(round(0.5 * RATE_HZ)) / RATE_HZ
    tail = np.random.default_rng(seed).normal(size=len(time_s)) * 10 ** (
        -3 * time_s / reverberation_s
    )
    tail *= 0.03
    tail[: round(0.006 * RATE_HZ)] = 0
    tail[0] = 1.0
    size = len(sound) + len(tail)
    whole = np.fft.irfft(np.fft.rfft(sound, size) * np.fft.rfft(tail, size), size)
    return np.asarray(whole[: len(sound)])


def voice(from_s: float, rms: float, seed: int = 7) -> FloatArray:
    """Invented: harmonics of 140 Hz, falling 12 dB an octave, swelling over 60 ms."""
    time_s = np.arange(round(LENGTH_S * RATE_HZ)) / RATE_HZ
    sound = sum(np.sin(2 * np.pi * 140 * k * time_s) / k**2 for k in range(1, 60))
    sound = sound + 0.02 * np.random.default_rng(seed).normal(size=len(time_s))
    swell = np.clip((time_s - from_s) / 0.06, 0, 1) * np.clip((from_s + 0.5 - time_s) / 0.06, 0, 1)
    return np.asarray(rms * sound / np.std(sound) * swell)


def found(sound: FloatArray, window: tuple[float, float] = WINDOW) -> Strike | None:
    return strike_in(sound.astype(np.float32), RATE_HZ, window)


@pytest.mark.parametrize("colour", ["white", "pink"])
@pytest.mark.parametrize("hall", [False, True])
@pytest.mark.parametrize("seed", range(5))
def test_a_click_is_timed_within_a_millisecond(colour: str, hall: bool, seed: int) -> None:
    sound = click(AT_S, 0.5, seed)
    heard = found((in_a_hall(sound) if hall else sound) + noise(colour, 0.01, seed))
    assert heard is not None
    assert heard.time_s == pytest.approx(AT_S, abs=0.001)
    assert heard.sigma_s >= 0.0005


def test_clicks_are_timed_as_well_as_their_sigma_says() -> None:
    errors = []
    for seed in range(40):
        at_s = 1.15 + 0.0027 * seed
        heard = found(in_a_hall(click(at_s, 0.3, seed)) + noise("pink", 0.01, seed))
        assert heard is not None
        errors.append((heard.time_s - at_s) / heard.sigma_s)
    assert np.sqrt(np.mean(np.square(errors))) < 1.5


@pytest.mark.parametrize("colour", ["white", "pink"])
@pytest.mark.parametrize("seed", range(8))
def test_noise_alone_is_no_strike(colour: str, seed: int) -> None:
    assert found(noise(colour, 0.05, seed)) is None


@pytest.mark.parametrize("from_s", [0.5, 1.15, 1.2])
def test_a_voice_is_no_strike_and_hides_none(from_s: float) -> None:
    talk = voice(from_s, 0.05) + noise("pink", 0.005, 1)
    assert found(talk) is None
    heard = found(talk + click(AT_S, 0.5))
    assert heard is not None
    assert heard.time_s == pytest.approx(AT_S, abs=0.001)


def test_a_clap_elsewhere_is_not_taken_for_the_strike() -> None:
    clap = click(0.7, 0.9) + noise("pink", 0.005, 1)
    assert found(clap) is None
    heard = found(clap + click(AT_S, 0.3, 9))
    assert heard is not None
    assert heard.time_s == pytest.approx(AT_S, abs=0.001)


def test_a_rate_too_low_and_a_window_outside_are_refused() -> None:
    silence = np.zeros(8000, dtype=np.float32)
    with pytest.raises(ValueError, match="8000 Hz"):
        strike_in(silence, 8000, (0.1, 0.2))
    with pytest.raises(ValueError, match="outside"):
        strike_in(silence, RATE_HZ, (0.1, 0.2))


MS = 1_000_000


class TestImpact:
    def test_the_sound_of_two_metres_away_comes_5_8_ms_late(self) -> None:
        # 343.2 m/s in dry air at 20 degrees C: common textbook value, from memory.
        assert pytest.approx(343.2) == SPEED_OF_SOUND_M_S
        assert Hearing(2.0).travel_s == pytest.approx(0.00583, abs=1e-5)

    def test_travel_and_latency_are_taken_off(self) -> None:
        heard = heard_strike(Strike(1.0, 0.0007, 30), 5_000 * MS, Hearing(3.432, 0.020))
        assert heard.time_ns == pytest.approx(5_970 * MS, abs=10)
        assert heard.sigma_ns > 4 * MS

    def test_eye_and_ear_are_weighted_by_their_variances(self) -> None:
        both = impact_from(1000 * MS, 10 * MS, HeardStrike(1010 * MS, 5 * MS), listening=True)
        assert both.struck is Struck.BALL
        assert both.time_ns == pytest.approx(1008 * MS, abs=1000)
        assert both.sigma_ns == pytest.approx(4.472 * MS, rel=1e-3)

    def test_silence_means_a_practice_swing_only_to_who_listened(self) -> None:
        assert impact_from(0, MS, None, listening=True).struck is Struck.PRACTICE
        assert impact_from(0, MS, None, listening=False).struck is Struck.UNKNOWN

    def test_a_strike_of_another_time_is_not_this_one(self) -> None:
        other = impact_from(1000 * MS, 5 * MS, HeardStrike(1200 * MS, 5 * MS), listening=True)
        assert (other.struck, other.time_ns) == (Struck.PRACTICE, 1000 * MS)


class TestListening:
    def test_from_ring_to_impact(self) -> None:
        sound = (click(AT_S, 0.5) + noise("pink", 0.005, 1)).astype(np.float32)
        ring = SoundRing(RATE_HZ, seconds=1.5)
        late = np.random.default_rng(2)
        for first in range(0, len(sound), 480):
            block = sound[first : first + 480]
            delivered = round((first + len(block)) / RATE_HZ * 1e9) + int(late.integers(0, 8 * MS))
            ring.write(block, delivered)
        hearing = Hearing(2.0, 0.010)
        true_ns = round((AT_S - hearing.travel_s - 0.010) * 1e9)
        heard = listen_for(ring.last(1.5), hearing, true_ns + 9 * MS, 10 * MS)
        assert heard.struck is Struck.BALL
        assert heard.time_ns == pytest.approx(true_ns, abs=2.5 * MS)
        early = listen_for(ring.last(1.5), hearing, true_ns - 300 * MS, 10 * MS)
        assert early.struck is Struck.PRACTICE

    @pytest.mark.parametrize("sound", [None, Sound(np.zeros(4800, np.float32), RATE_HZ, 0)])
    def test_without_the_sound_of_that_time_nothing_is_known(self, sound: Sound | None) -> None:
        assert listen_for(sound, Hearing(), 10_000 * MS, 10 * MS).struck is Struck.UNKNOWN
