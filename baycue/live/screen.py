"""The seam between the live loop and the big screen."""

from typing import Protocol

import pygame

from baycue.cues.display import Window
from baycue.cues.keys import Key, wish
from baycue.cues.screen import draw_verdict
from baycue.live.view import LiveView
from baycue.verdict.verdict import SwingVerdict


class LiveScreen(Protocol):
    """Shows what the bay knows and takes the golfer's wishes; used by the main thread only."""

    def show(self, view: LiveView) -> None:
        """Show this; called at every turn of the loop, so it must be cheap if nothing changed."""

    def keys(self) -> tuple[Key, ...]:
        """What was asked for since the last call; called some fifty times a second."""

    def close(self) -> None:
        """Close the screen."""


class NoScreen:
    """Where there is no display: nothing is shown, nothing can be asked."""

    def show(self, view: LiveView) -> None:
        """Show nothing."""

    def keys(self) -> tuple[Key, ...]:
        """Nobody asks."""
        return ()

    def close(self) -> None:
        """Nothing is open."""


class VerdictScreen:
    """The last verdict in a window, and nothing else."""

    def __init__(self, window: Window) -> None:
        self._window = window
        self._shown: SwingVerdict | None = None

    def show(self, view: LiveView) -> None:
        """Draw the verdict, if there is a new one."""
        if view.verdict is not None and view.verdict is not self._shown:
            self._shown = view.verdict
            tally = f"{view.passes} of {view.balls} passed"
            draw_verdict(self._window.surface, view.verdict, tally=tally)
            self._window.show()

    def keys(self) -> tuple[Key, ...]:
        """What was asked for."""
        wishes = (wish(event) for event in pygame.event.get())
        return tuple(key for key in wishes if key is not None)

    def close(self) -> None:
        """Close the window."""
        self._window.close()
