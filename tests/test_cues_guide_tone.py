"""The guide tone: measured, not trusted."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.signal import hilbert

from baycue.cues.guide_tone import STEADY, GuideTone, GuideVoice, voice_of
from baycue.cues.tones import HIGHEST_PEAK_DBFS, RATE_HZ, tone_for
from baycue.practice.hold import Guidance, Window
from baycue.practice.posture import SHAFT
from baycue.verdict.verdict import Outcome
from tests.test_cues_tones import FloatArray, loudest_momentary_lkfs, spectrum, strongest_hz

WINDOW = Window(SHAFT, -10.0, 10.0)
A5_HZ = 880.0
LOW, HIGH = GuideVoice(659.255, 10.0, 1.0), GuideVoice(1174.659, 1.5, 1.0)
STEEPEST = 2 * np.pi * (1 + 2 * 0.25) * 1200 / RATE_HZ
"""Of a wave of full height at the highest pitch, with its overtone, per sample."""


def guided(off_deg: float, inside: bool = False) -> Guidance:
    return Guidance(SHAFT, WINDOW, off_deg, 1.0, off_deg, off_deg / 10, inside, 0.0, 2.0)


def played(tone: GuideTone, seconds: float, block: int = 960) -> FloatArray:
    total = np.zeros(round(seconds * RATE_HZ), np.float32)
    for first in range(0, len(total), block):
        tone.add_to(total[first : first + block])
    return total.astype(np.float64)


def settled(voice: GuideVoice, seconds: float = 2.0) -> FloatArray:
    tone = GuideTone()
    tone.voice = voice
    played(tone, 0.5)
    return played(tone, seconds)


def envelope(signal: FloatArray) -> FloatArray:
    """How loud it is over time, without the ends, where a Hilbert transform rings."""
    return np.asarray(np.abs(hilbert(signal))[2400:-2400], dtype=np.float64)


class TestWhatItTells:
    def test_inside_it_is_steady_on_a5(self) -> None:
        assert voice_of(guided(0.0, inside=True)) == STEADY
        # A5 is twice A4 = 440 Hz (ISO 16).
        assert GuideVoice(A5_HZ, 0.0, 0.0) == STEADY

    def test_the_nearer_the_slower_it_beats(self) -> None:
        beats = [voice_of(guided(off)).beat_hz for off in (0.1, 5.0, 20.0, 60.0, 170.0)]
        assert beats == sorted(beats)
        assert 1.5 < beats[0] < 1.7
        assert 8 < beats[-1] < 10

    def test_pitch_tells_too_low_from_too_high(self) -> None:
        low, high = voice_of(guided(-30.0)), voice_of(guided(30.0))
        assert low.frequency_hz < A5_HZ < high.frequency_hz
        assert low.beat_hz == high.beat_hz
        # As far down as up, in semitones.
        assert low.frequency_hz * high.frequency_hz == pytest.approx(A5_HZ**2)

    @given(st.floats(-1000, 1000))
    def test_every_voice_with_its_overtone_lies_in_the_band(self, off: float) -> None:
        # 500 to 2500 Hz: ISO 7731:2003, read in a secondary source.
        voice = voice_of(guided(off))
        assert voice.frequency_hz - voice.beat_hz > 500
        assert 2 * voice.frequency_hz + voice.beat_hz < 2500


class TestTheSound:
    @pytest.mark.parametrize("voice", [STEADY, LOW, HIGH])
    def test_its_pitch_is_what_was_asked_for(self, voice: GuideVoice) -> None:
        assert strongest_hz(settled(voice)) == pytest.approx(voice.frequency_hz, abs=0.5)

    @pytest.mark.parametrize("voice", [LOW, HIGH])
    def test_it_beats_as_often_as_asked_for(self, voice: GuideVoice) -> None:
        loud = envelope(settled(voice, 4.0))
        assert strongest_hz(loud - loud.mean()) == pytest.approx(voice.beat_hz, abs=0.1)
        assert loud.min() < 0.05 * loud.max()

    def test_steady_is_steady(self) -> None:
        loud = envelope(settled(STEADY))
        # Over 11 whole periods of 880 Hz, 600 samples, within which wave and octave add up.
        slow = np.convolve(loud, np.full(600, 1 / 600), "valid")
        assert slow.max() / slow.min() < 1.001

    @pytest.mark.parametrize("voice", [STEADY, LOW, HIGH])
    def test_its_power_lies_in_the_band(self, voice: GuideVoice) -> None:
        frequencies, power = spectrum(settled(voice) * np.hanning(2 * RATE_HZ))
        inside = (frequencies >= 500) & (frequencies <= 2500)
        assert power[inside].sum() > 0.9999 * power.sum()

    def test_it_is_six_decibels_below_the_answers(self) -> None:
        # By ITU-R BS.1770 (pyloudnorm).
        answer = loudest_momentary_lkfs(tone_for(Outcome.PASS).samples.astype(np.float64))
        assert loudest_momentary_lkfs(settled(STEADY)) - answer == pytest.approx(-6.0, abs=0.2)

    def test_with_an_answer_above_it_nothing_clips(self) -> None:
        highest = max(np.abs(tone_for(outcome).samples).max() for outcome in Outcome)
        assert np.abs(settled(HIGH)).max() + highest < 1.0
        assert np.abs(settled(STEADY)).max() < 10 ** (HIGHEST_PEAK_DBFS / 20)

    def test_the_volume_is_a_factor(self) -> None:
        half = GuideTone(volume=0.5)
        half.voice = STEADY
        assert np.abs(played(half, 1.0)).max() == pytest.approx(
            0.5 * np.abs(settled(STEADY)).max(), rel=0.01
        )


class TestNoClicks:
    @settings(max_examples=20, deadline=None)
    @given(st.lists(st.integers(1, 9000), min_size=1, max_size=12))
    def test_blocks_of_any_length_make_the_same_samples(self, lengths: list[int]) -> None:
        voices = [STEADY, LOW, None, HIGH]
        whole, parts = GuideTone(), GuideTone()
        for k, length in enumerate(lengths):
            whole.voice = parts.voice = voices[k % 4]
            one, other = np.zeros(length, np.float32), np.zeros(length, np.float32)
            whole.add_to(one)
            for first in range(0, length, 317):
                parts.add_to(other[first : first + 317])
            assert np.abs(one - other).max() < 1e-6

    def test_no_change_makes_a_step(self) -> None:
        """No sample is further from the last than the steepest wave of that loudness is."""
        tone, heard = GuideTone(), []
        for k, voice in enumerate([STEADY, LOW, HIGH, None, LOW, STEADY, None, HIGH] * 5):
            tone.voice = voice
            heard.append(played(tone, 0.03 + 0.0137 * k, 480))
        steps = np.abs(np.diff(np.concatenate([[0.0], *heard])))
        assert steps.max() < 0.155 * STEEPEST

    def test_a_click_would_be_found(self) -> None:
        torn = settled(STEADY)
        torn = np.concatenate([torn[:1013], torn[1045:]])
        assert np.abs(np.diff(torn)).max() > 0.155 * STEEPEST

    def test_silence_fades_in_and_out(self) -> None:
        tone = GuideTone()
        assert not played(tone, 0.1).any()
        tone.voice = STEADY
        assert np.abs(played(tone, 1.0)[:24]).max() < 0.005
        tone.voice = None
        fading = played(tone, 1.0)
        assert np.abs(fading[:480]).max() > 0.1
        assert not fading[-2400:].any()

    def test_blocks_may_have_channels(self) -> None:
        flat, wide = GuideTone(), GuideTone()
        flat.voice = wide.voice = LOW
        one, two = np.zeros(6000, np.float32), np.zeros((6000, 2), np.float32)
        flat.add_to(one)
        wide.add_to(two)
        assert np.array_equal(two, np.column_stack([one, one]))

    def test_it_adds_to_what_is_there(self) -> None:
        tone = GuideTone()
        tone.voice = replace(STEADY)
        block = np.full(480, 0.25, np.float32)
        tone.add_to(block)
        other = GuideTone()
        other.voice = STEADY
        alone = np.zeros(480, np.float32)
        other.add_to(alone)
        assert np.allclose(block, alone + np.float32(0.25))
