"""What is asked of every voice, also of one that somebody adds."""

from itertools import combinations
from pathlib import Path

import numpy as np
import pytest

import baycue.cues.voices
from baycue.cues.tones import HIGHEST_PEAK_DBFS, tone_for
from baycue.cues.voice import Voice
from baycue.cues.voice_catalogue import voice_named, voices
from baycue.errors import BaycueError
from baycue.verdict.verdict import Outcome
from tests.command_line import Run, files
from tests.test_cues_tones import loudest_momentary_lkfs, spectrum

every_voice = pytest.mark.parametrize("voice", voices(), ids=lambda voice: voice.name)


def test_the_catalogue_is_every_module_that_defines_a_voice() -> None:
    folder = Path(baycue.cues.voices.__file__).parent
    assert [v.name for v in voices()] == sorted(
        p.stem.replace("_", " ") for p in folder.glob("*.py") if p.stem != "__init__"
    )


def test_the_standard_voice_has_the_tones_that_are_measured_elsewhere() -> None:
    for outcome in Outcome:
        heard = voice_named("standard").tone(outcome)
        assert np.array_equal(heard.samples, tone_for(outcome).samples)


def test_an_unknown_voice_is_told_with_the_nearest() -> None:
    with pytest.raises(BaycueError, match=r'no voice "standart".*did you mean "standard"'):
        voice_named("standart")


@every_voice
def test_a_voice_has_all_three_and_no_two_of_a_length(voice: Voice) -> None:
    assert set(voice.scores) == set(Outcome)
    lengths_s = [voice.tone(outcome).length_s for outcome in Outcome]
    assert all(abs(one - other) > 0.14 for one, other in combinations(lengths_s, 2))
    assert voice.told.endswith(".")


@every_voice
@pytest.mark.parametrize("outcome", list(Outcome))
def test_a_tone_of_any_voice_is_clean_and_as_loud_as_the_others(
    voice: Voice, outcome: Outcome
) -> None:
    """ITU-R BS.1770 for loudness; the pitches may be lower than the standard voice's."""
    signal = voice.tone(outcome).samples.astype(np.float64)
    loudness = loudest_momentary_lkfs(signal)
    assert loudness == pytest.approx(-13.0, abs=0.5), (
        f"multiply its gain by {10 ** ((-13.0 - loudness) / 20):.3f}"
    )
    assert 20 * np.log10(np.abs(signal).max()) <= HIGHEST_PEAK_DBFS
    assert signal[0] == signal[-1] == 0
    frequencies, power = spectrum(signal)
    assert power[(frequencies >= 200) & (frequencies <= 2500)].sum() / power.sum() > 0.999


def test_the_command_lists_voices_and_writes_what_it_cannot_sound(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    run = Run(capsys)
    assert "standard: Pass rises" in run("tones").out
    monkeypatch.setenv("PULSE_SERVER", "unix:/nowhere")
    monkeypatch.setenv("ALSA_CONFIG_PATH", "/nowhere")
    said = run("tones", "standard", "--out", tmp_path / "out")
    assert said.exit_code == 0
    assert [f"{outcome.value}: " in said.out for outcome in Outcome] == [True] * 3
    wavs = sorted(path.name for path in files(tmp_path))
    assert wavs in ([], ["fail.wav", "pass.wav", "too_close_to_call.wav"])


def test_score_refuses_an_unknown_voice_before_any_work(capsys: pytest.CaptureFixture[str]) -> None:
    said = Run(capsys)("score", "none.mp4", "--plan", "none.yaml", "--tones", "standart")
    assert (said.exit_code, "did you mean" in said.line) == (2, True)
