"""The seam between the live loop and the big screen."""

from typing import Protocol

from baycue.cues.keys import Wish
from baycue.live.view import LiveView


class BigScreen(Protocol):
    """Shows what the bay knows and takes the golfer's wishes; used by the main thread only."""

    def show(self, view: LiveView) -> None:
        """Show this; called at every turn of the loop, so it must be cheap if nothing changed."""

    def keys(self) -> tuple[Wish, ...]:
        """What was asked for since the last call; called some fifty times a second."""

    def close(self) -> None:
        """Close the screen."""


class NoScreen:
    """Where there is no display: nothing is shown, nothing can be asked."""

    def show(self, view: LiveView) -> None:
        """Show nothing."""

    def keys(self) -> tuple[Wish, ...]:
        """Nobody asks."""
        return ()

    def close(self) -> None:
        """Nothing is open."""
