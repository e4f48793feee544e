"""Tell the golfer a verdict by every means this machine has, and say what it lacks."""

import time
from pathlib import Path

import pygame

from baycue.cues.display import SIZE_PX, Window, open_window, save_png
from baycue.cues.screen import draw_verdict
from baycue.cues.speaker import open_speaker
from baycue.cues.tones import tone_for
from baycue.verdict.verdict import Outcome, SwingVerdict

_POLL_S = 0.03


class Cues:
    """A window and a speaker, or picture and sound files in ``folder`` instead.

    ``notes`` has one line for each thing that was missing and what is done about it.
    """

    def __init__(self, folder: Path, hold_s: float) -> None:
        self._folder, self._hold_s = folder, hold_s
        self._speaker, no_sound = open_speaker(folder / "tone.wav")
        self._window, no_window = open_window()
        picture = f"{no_window}; the big screen goes to {folder / 'screen-1.png'} and on"
        self.notes = [note for note in (no_sound, picture if no_window else None) if note]
        self._passed = self._shown = 0

    def tell(self, verdict: SwingVerdict) -> None:
        """Sound the verdict's tone, then show it."""
        self._speaker.play(tone_for(verdict.outcome))
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

    def _draw_to_file(self, verdict: SwingVerdict, tally: str) -> None:
        surface = pygame.Surface(SIZE_PX)
        draw_verdict(surface, verdict, tally=tally)
        save_png(surface, self._folder / f"screen-{self._shown}.png")


def _show(window: Window, verdict: SwingVerdict, tally: str, hold_s: float) -> None:
    """Keep the verdict up for a while, redrawn in whatever size the window is given."""
    until = time.monotonic() + hold_s
    while time.monotonic() < until and not window.closed():
        draw_verdict(window.surface, verdict, tally=tally)
        window.show()
        time.sleep(_POLL_S)
