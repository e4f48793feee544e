"""The guide tone through a real sound server's silent sink, recorded and measured."""

import os
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest

from baycue.cues.guide_tone import STEADY
from baycue.cues.sound_card import SoundCardSpeaker
from baycue.cues.tones import RATE_HZ, tone_for
from baycue.verdict.verdict import Outcome
from tests.sound_server import (
    has_sink,
    needs_portaudio,
    needs_sound_server,
    recording,
    sound_server,
    wait_until,
)
from tests.test_cues_guide_tone import STEEPEST, envelope
from tests.test_cues_sound_card import PretendedCard, Shop
from tests.test_cues_tones import FloatArray, loudest_momentary_lkfs, strongest_hz

GUIDE = """
import time
from baycue.cues.guide_tone import STEADY, GuideVoice
from baycue.cues.sound_card import SoundCardSpeaker
speaker = SoundCardSpeaker()
time.sleep(0.3)
for voice, seconds in ((GuideVoice(659.255, 6.0, 1.0), 2.5), (STEADY, 2.5), (None, 0.5)):
    speaker.guide(voice)
    time.sleep(seconds)
print(speaker.describe())
speaker.close()
"""


@needs_portaudio
@needs_sound_server
def test_recorded_from_a_sink_it_beats_then_steadies_without_a_click(tmp_path: Path) -> None:
    with sound_server(tmp_path / "server") as env:
        wait_until(lambda: has_sink(env))
        with recording(tmp_path / "heard.raw", env):
            told = subprocess.run(
                [sys.executable, "-c", GUIDE],
                env={**os.environ, **env},
                capture_output=True,
                text=True,
                timeout=60,
                check=True,
            ).stdout
    late = re.search(r"(\d+) underruns", told)
    if late is None or int(late[1]):
        pytest.skip(f"this machine is too busy for sound without gaps: {told.strip()}")
    heard = np.fromfile(tmp_path / "heard.raw", dtype="<f4").astype(np.float64)
    sounding = np.flatnonzero(np.abs(heard) > 0.001)
    first, last = int(sounding[0]), int(sounding[-1])
    assert 4.7 < (last - first) / RATE_HZ < 6.0
    beating = heard[first + RATE_HZ // 4 : first + 9 * RATE_HZ // 4]
    steady = heard[first + 3 * RATE_HZ : first + 9 * RATE_HZ // 2]
    assert strongest_hz(beating) == pytest.approx(659.255, abs=0.5)
    assert strongest_hz(steady) == pytest.approx(880.0, abs=0.5)
    loud = envelope(beating)
    assert strongest_hz(loud - loud.mean()) == pytest.approx(6.0, abs=0.3)
    assert envelope(steady).min() > 10 * loud.min()
    assert loudest_momentary_lkfs(steady) == pytest.approx(-19.0, abs=0.3)
    assert np.abs(np.diff(heard)).max() < 0.155 * STEEPEST


class TestSpeaker:
    def heard(self, card: PretendedCard, turns: int) -> FloatArray:
        return np.concatenate([card.turn() for _ in range(turns)]).astype(np.float64)

    def test_it_holds_a_tone_beside_its_answers(self) -> None:
        shop = Shop()
        speaker = SoundCardSpeaker(open_output=shop.open)
        (card,) = shop.cards
        assert not self.heard(card, 3).any()
        speaker.guide(STEADY)
        assert np.abs(self.heard(card, 50)).max() > 0.1
        speaker.play(tone_for(Outcome.FAIL))
        both = np.abs(self.heard(card, 50)).max()
        assert 0.4 < both < 1.0
        speaker.guide(None)
        assert not self.heard(card, 200)[-480:].any()
        speaker.close()
