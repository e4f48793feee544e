"""Tell the golfer a verdict by every means this machine has, and say what it lacks."""

import time
from collections.abc import Callable
from pathlib import Path

import pygame

from baycue.cues.display import SIZE_PX, Window, open_window, save_png
from baycue.cues.screen import draw_verdict
from baycue.cues.speaker import Speaker, open_speaker
from baycue.cues.tones import Tone
from baycue.cues.voice import Voice
from baycue.cues.voices.standard import VOICE
from baycue.cues.wav import WavSpeaker
from baycue.errors import OutputError
from baycue.verdict.verdict import Outcome, SwingVerdict

_POLL_S = 0.03

Say = Callable[[str], None]


def open_cues(folder: Path, hold_s: float, say: Say, voice: Voice = VOICE) -> "Cues":
    """The sound card and a window; where one is missing, files in ``folder`` instead.

    ``say`` is given one line on what was missing and what is done about it, if anything was.
    """
    speaker, no_sound = open_speaker(_tone_path(folder))
    window, no_window = open_window()
    picture = f"{no_window}; the big screen goes to {folder / 'screen-1.png'} and on"
    notes = [note for note in (no_sound, picture if no_window else None) if note]
    if notes:
        say("; ".join(notes))
    return Cues(folder, hold_s, say, speaker, window, voice)


class Cues:
    """A speaker and a window, or picture files in ``folder`` for None.

    A speaker that fails does not stop the verdict: it is said once, and tones go to files.
    """

    def __init__(
        self,
        folder: Path,
        hold_s: float,
        say: Say,
        speaker: Speaker,
        window: Window | None,
        voice: Voice = VOICE,
    ) -> None:
        self._folder, self._hold_s, self._say = folder, hold_s, say
        self._speaker, self._window, self._voice = speaker, window, voice
        self._sound_lost = False
        self._passed = self._shown = 0

    def tell(self, verdict: SwingVerdict) -> None:
        """Sound the verdict's tone, then show it; OutputError if a picture cannot be written."""
        self._play(self._voice.tone(verdict.outcome))
        self._shown += 1
        self._passed += verdict.outcome is Outcome.PASS
        tally = f"{self._passed} of {self._shown} passed"
        if self._window is None:
            self._draw_to_file(verdict, tally)
        else:
            _show(self._window, verdict, tally, self._hold_s)

    def close(self) -> None:
        """Let the last tone end, then close window and sound."""
        self._speaker.close()
        if self._window is not None:
            self._window.close()

    def _play(self, tone: Tone) -> None:
        try:
            self._speaker.play(tone)
        except OutputError as error:
            self._lose_sound(error, tone)

    def _lose_sound(self, error: OutputError, tone: Tone) -> None:
        """Go over to files; if even these fail, stay silent and let the screen go on.

        The lost speaker is not closed: closing a device that is gone may wait for ever.
        """
        if self._sound_lost:
            return
        self._sound_lost = True
        path = _tone_path(self._folder)
        self._say(f"the sound was lost ({error}); tones go to {path}, the screen goes on")
        self._speaker = WavSpeaker(path)
        self._play(tone)

    def _draw_to_file(self, verdict: SwingVerdict, tally: str) -> None:
        surface = pygame.Surface(SIZE_PX)
        draw_verdict(surface, verdict, tally=tally)
        save_png(surface, self._folder / f"screen-{self._shown}.png")


def _tone_path(folder: Path) -> Path:
    return folder / "tone.wav"


def _show(window: Window, verdict: SwingVerdict, tally: str, hold_s: float) -> None:
    """Keep the verdict up for a while, redrawn in whatever size the window is given."""
    until = time.monotonic() + hold_s
    while time.monotonic() < until and not window.closed():
        draw_verdict(window.surface, verdict, tally=tally)
        window.show()
        time.sleep(_POLL_S)
