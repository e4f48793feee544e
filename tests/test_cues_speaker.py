"""Speakers: the callback's work, the files, and a real sound server where there is one."""

import os
import subprocess
import sys
import wave
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest
from scipy.signal import correlate

from baycue.cues.playback import Cue, Playback, onset_in_block
from baycue.cues.speaker import open_speaker
from baycue.cues.tones import RATE_HZ, Samples, tone_for
from baycue.cues.wav import WavSpeaker
from baycue.errors import OutputError
from baycue.verdict.verdict import Outcome
from tests.sound_server import (
    has_sink,
    needs_portaudio,
    needs_sound_server,
    recording,
    sound_server,
    wait_until,
)


def feed(playback: Playback, blocks: int, size: int, start_s: float = 10.0) -> Samples:
    """What a card would sound that asks for blocks one after another."""
    heard = []
    for index in range(blocks):
        block = np.full(size, 9, dtype=np.float32)
        playback.fill(block, start_s + index * size / RATE_HZ)
        heard.append(block)
    return np.concatenate(heard)


class TestPlayback:
    def test_silence_until_asked(self) -> None:
        assert not feed(Playback(RATE_HZ), 5, 256).any()

    @pytest.mark.parametrize("size", [64, 256, 1000])
    @pytest.mark.parametrize("due_sample", [0, 1, 255, 700])
    def test_a_tone_starts_at_its_sample_whatever_the_block(
        self, size: int, due_sample: int
    ) -> None:
        tone = np.linspace(0.1, 1, 2000, dtype=np.float32)
        playback = Playback(RATE_HZ)
        playback.ask(Cue(tone, 10.0 + due_sample / RATE_HZ))
        heard = feed(playback, 4000 // size, size)
        assert np.flatnonzero(heard)[0] == due_sample
        np.testing.assert_array_equal(heard[due_sample : due_sample + 2000], tone)
        assert not heard[due_sample + 2000 :].any()
        assert not playback.busy

    def test_both_channels_get_the_tone(self) -> None:
        playback = Playback(RATE_HZ)
        playback.ask(Cue(np.ones(10, dtype=np.float32), 0.0))
        block = np.zeros((10, 2), dtype=np.float32)
        playback.fill(block, 1.0)
        assert block.all()

    def test_a_second_tone_waits_for_the_first(self) -> None:
        playback = Playback(RATE_HZ)
        playback.ask(Cue(np.full(300, 0.5, dtype=np.float32), 0.0))
        first = feed(playback, 1, 256)
        playback.ask(Cue(np.full(100, 0.25, dtype=np.float32), 0.0))
        rest = feed(playback, 3, 256)
        assert (first == 0.5).all()
        assert (rest[:44] == 0.5).all()
        assert (rest == 0.25).sum() == 100

    @pytest.mark.parametrize(
        ("due_s", "block_s", "samples"),
        [(5.0, 5.0, 0), (5.001, 5.0, 48), (4.0, 5.0, 0), (5.0, 0.0, 0), (900.0, 5.0, 0)],
    )
    def test_late_or_on_another_clock_starts_at_once(
        self, due_s: float, block_s: float, samples: int
    ) -> None:
        assert onset_in_block(due_s, block_s, RATE_HZ) == samples


class TestFiles:
    def test_the_file_holds_the_tone(self, tmp_path: Path) -> None:
        tone = tone_for(Outcome.PASS)
        WavSpeaker(tmp_path / "tone.wav").play(tone)
        with wave.open(str(tmp_path / "tone.wav")) as wav:
            assert (wav.getframerate(), wav.getnchannels()) == (RATE_HZ, 1)
            pcm = np.frombuffer(wav.readframes(wav.getnframes()), dtype="<i2")
        np.testing.assert_allclose(pcm / 32767, tone.samples, atol=1 / 32767)

    def test_every_tone_of_a_session_has_its_own_file(self, tmp_path: Path) -> None:
        speaker = WavSpeaker(tmp_path / "tone.wav")
        for outcome in Outcome:
            speaker.play(tone_for(outcome))
        names = sorted(path.name for path in tmp_path.iterdir())
        assert names == ["tone-2.wav", "tone-3.wav", "tone.wav"]

    def test_nothing_is_overwritten(self, tmp_path: Path) -> None:
        path = tmp_path / "tone.wav"
        path.write_bytes(b"mine")
        with pytest.raises(OutputError, match="not overwritten"):
            WavSpeaker(path).play(tone_for(Outcome.PASS))
        assert path.read_bytes() == b"mine"

    def test_a_missing_folder_is_told(self, tmp_path: Path) -> None:
        with pytest.raises(OutputError, match="cannot be written"):
            WavSpeaker(tmp_path / "none" / "tone.wav").play(tone_for(Outcome.PASS))


def run_python(code: str, **env: str) -> str:
    result = subprocess.run(
        [sys.executable, "-c", code],
        env={**os.environ, **env},
        capture_output=True,
        text=True,
        timeout=60,
        check=True,
    )
    return result.stdout


OPEN_AND_TELL = """
from pathlib import Path
from baycue.cues.speaker import open_speaker
speaker, why = open_speaker(Path("fallback.wav"))
print(type(speaker).__name__, "|", why)
"""


def test_without_the_sound_library_tones_go_to_files_and_the_reason_is_told() -> None:
    hide = "import ctypes.util\nctypes.util.find_library = lambda name: None\n"
    name, why = run_python(hide + OPEN_AND_TELL).strip().split(" | ")
    assert name == "WavSpeaker"
    assert why == "no sound: PortAudio library not found; tones go to fallback.wav"


@needs_portaudio
def test_without_a_usable_device_tones_go_to_files_and_the_reason_is_told() -> None:
    choose_absent = "import sounddevice\nsounddevice.default.device = 9999\n"
    told = run_python(choose_absent + OPEN_AND_TELL)
    assert told.startswith("WavSpeaker | no sound: ")
    assert told.endswith("; tones go to fallback.wav\n")
    assert len(told.splitlines()) == 1


PLAY_TWO = """
import time
from pathlib import Path
from baycue.cues.speaker import open_speaker
from baycue.cues.tones import tone_for
from baycue.verdict.verdict import Outcome
speaker, why = open_speaker(Path("unused.wav"))
print(why, "|", speaker.describe())
time.sleep(0.3)
speaker.play(tone_for(Outcome.FAIL))
time.sleep(1.2)
speaker.play(tone_for(Outcome.PASS))
time.sleep(1.2)
print("gaps:", speaker.describe().rsplit(", ", 1)[-1])
speaker.close()
"""
GAPLESS_TRIES = 6


@needs_portaudio
@needs_sound_server
def test_a_real_sound_server_sounds_both_tones(tmp_path: Path) -> None:
    """Whole and unaltered, whenever the speaker itself says that it left no gap.

    On a machine too busy to fill the card in time a tone has gaps, which the speaker counts; then
    the tones are played again.
    """
    with sound_server(tmp_path / "server") as env:
        wait_until(lambda: has_sink(env))
        for attempt in range(GAPLESS_TRIES):
            raw = tmp_path / f"heard{attempt}.raw"
            with recording(raw, env):
                told = run_python(PLAY_TWO, **env)
            assert told.startswith("None | ")
            assert "48000 Hz" in told
            if told.endswith("gaps: 0 underruns\n"):
                break
        else:
            pytest.skip(f"this machine is too busy to sound a tone: {told.splitlines()[-1]}")
    heard = np.fromfile(raw, dtype="<f4")
    fail, win = (onset_of(heard, outcome) for outcome in (Outcome.FAIL, Outcome.PASS))
    assert fail < win


PLAY_WHEN_TOLD = """
import sys
from pathlib import Path
from baycue.cues.speaker import open_speaker
from baycue.cues.tones import tone_for
from baycue.errors import OutputError
from baycue.verdict.verdict import Outcome
speaker, why = open_speaker(Path("unused.wav"))
print(why, flush=True)
for line in sys.stdin:
    try:
        speaker.play(tone_for(Outcome.PASS))
        print("sounds", flush=True)
    except OutputError as error:
        print(error, flush=True)
speaker.close()
"""


@needs_portaudio
@needs_sound_server
def test_a_lost_sound_card_is_told_and_used_again_when_it_is_back(tmp_path: Path) -> None:
    said: list[str] = []
    with sound_server(tmp_path / "server") as env:
        wait_until(lambda: has_sink(env))
        player = subprocess.Popen(
            [sys.executable, "-c", PLAY_WHEN_TOLD],
            env={**os.environ, **env},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            stderr=subprocess.DEVNULL,
            text=True,
        )
        answers = iter(player.stdout or ())
        opened, first = next(answers), ask(player, answers)

    def lost() -> bool:
        said.append(ask(player, answers))
        return said[-1] != "sounds"

    wait_until(lost)
    with sound_server(tmp_path / "server") as env:
        wait_until(lambda: has_sink(env))
        wait_until(lambda: ask(player, answers) == "sounds")
        player.communicate(timeout=30)
    assert (opened.strip(), first) == ("None", "sounds")
    assert said[-1].startswith("no sound: ")
    assert said[-1].endswith("trying again")


def ask(player: subprocess.Popen[str], answers: Iterator[str]) -> str:
    """Have the player sound a tone; what it says of it."""
    assert player.stdin is not None
    player.stdin.write("play\n")
    player.stdin.flush()
    return next(answers).strip()


def onset_of(heard: Samples, outcome: Outcome) -> int:
    """The sample at which a tone was heard, whole and unaltered, by matched filter."""
    tone = tone_for(outcome).samples
    match = correlate(heard, tone, mode="valid", method="fft")
    onset = int(np.argmax(match))
    part = heard[onset : onset + len(tone)]
    likeness = float(np.dot(part, tone) / (np.linalg.norm(part) * np.linalg.norm(tone)))
    assert likeness > 0.99
    return onset


def test_opening_always_gives_a_speaker(tmp_path: Path) -> None:
    speaker, why = open_speaker(tmp_path / "tone.wav")
    assert isinstance(speaker, WavSpeaker) == (why is not None)
    assert speaker.describe()
    speaker.close()
