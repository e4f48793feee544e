"""Telling a verdict with a speaker that fails on the way."""

from dataclasses import dataclass, field
from pathlib import Path

import numpy as np
import pytest

from baycue.cues.present import Cues, open_cues
from baycue.cues.tones import Tone, tone_for
from baycue.errors import OutputError
from baycue.verdict.verdict import SwingVerdict
from tests.scored_swing import scored_swing


@dataclass
class FailingSpeaker:
    """Plays so many tones, and then never again."""

    left: int
    played: list[Tone] = field(default_factory=list)
    closed: bool = False
    is_alive = True

    def play(self, tone: Tone) -> None:
        if not self.left:
            raise OutputError("no sound: the device is gone")
        self.left -= 1
        self.played.append(tone)

    def close(self) -> None:
        self.closed = True

    def describe(self) -> str:
        return "a speaker that fails"


def verdict() -> SwingVerdict:
    return scored_swing().verdict


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_speaker_lost_on_the_way_is_said_once_and_the_screen_goes_on(tmp_path: Path) -> None:
    said: list[str] = []
    speaker = FailingSpeaker(left=1)
    cues = Cues(tmp_path, 0.0, said.append, speaker, None)
    for _ in range(3):
        cues.tell(verdict())
    cues.close()
    (played,) = speaker.played
    assert np.array_equal(played.samples, tone_for(verdict().outcome).samples)
    assert len(said) == 1
    assert "the device is gone" in said[0]
    assert str(tmp_path / "tone.wav") in said[0]
    assert names(tmp_path) == [
        "screen-1.png",
        "screen-2.png",
        "screen-3.png",
        "tone-2.wav",
        "tone.wav",
    ]


def test_if_not_even_files_can_be_written_the_sound_stays_away_in_silence(tmp_path: Path) -> None:
    (tmp_path / "tone.wav").write_text("mine")
    (tmp_path / "tone-2.wav").write_text("mine")
    said: list[str] = []
    cues = Cues(tmp_path, 0.0, said.append, FailingSpeaker(left=0), None)
    cues.tell(verdict())
    cues.tell(verdict())
    cues.close()
    assert len(said) == 1
    assert (tmp_path / "tone.wav").read_text() == "mine"
    assert "screen-2.png" in names(tmp_path)


def test_a_working_speaker_is_closed_at_the_end_and_nothing_is_said(tmp_path: Path) -> None:
    said: list[str] = []
    speaker = FailingSpeaker(left=9)
    cues = Cues(tmp_path, 0.0, said.append, speaker, None)
    cues.tell(verdict())
    cues.close()
    assert speaker.closed
    assert said == []
    assert names(tmp_path) == ["screen-1.png"]


def test_what_this_machine_lacks_is_one_line(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SDL_VIDEODRIVER", "dummy")
    said: list[str] = []
    open_cues(tmp_path, 0.0, said.append).close()
    (line,) = said
    assert 'SDL_VIDEODRIVER is "dummy"; the big screen goes to' in line
    assert "\n" not in line
