"""Where tones go: the sound card, or files where there is none."""

from pathlib import Path
from typing import Protocol

from baycue.cues.guide_tone import GuideVoice
from baycue.cues.sound_card import SoundCardSpeaker
from baycue.cues.sound_device import SoundChoice
from baycue.cues.tones import Tone
from baycue.cues.wav import WavSpeaker
from baycue.errors import OutputError


class Speaker(Protocol):
    """Something that sounds tones."""

    @property
    def is_alive(self) -> bool:
        """False if tones are wanted and would not be heard now."""

    def play(self, tone: Tone) -> None:
        """Start a tone and return at once; OutputError if it cannot sound."""

    def close(self) -> None:
        """Let the last tone end, then let go of the device."""

    def describe(self) -> str:
        """One line on what was really opened."""


class Guide(Protocol):
    """Something that holds a tone and changes it as a golfer moves."""

    def guide(self, voice: GuideVoice | None) -> None:
        """Sound this from now on; None is silence.  Returns at once and never fails."""


class NoGuide:
    """Where there is no sound card: the screen alone guides."""

    def guide(self, voice: GuideVoice | None) -> None:
        """Nothing sounds."""


def open_speaker(
    fallback_wav: Path, choice: SoundChoice | None = None
) -> tuple[Speaker, str | None]:
    """The sound card, or a WAV writer and the one-line reason why."""
    try:
        return SoundCardSpeaker(choice), None
    except OutputError as error:
        return WavSpeaker(fallback_wav), f"{error}; tones go to {fallback_wav}"
