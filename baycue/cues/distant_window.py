"""A window that lives in a process of its own, as who draws on it sees it."""

import multiprocessing
from typing import Any

import pygame

from baycue.cues.keys import WindowWish
from baycue.cues.shared_pixels import SharedPixels
from baycue.cues.window_process import Opened, Refused, Told, WindowRequest, serve
from baycue.errors import OutputError
from baycue.interrupts_held import interrupts_held

_OPENS_S, _CLOSES_S = 20.0, 2.0


class DistantWindow:
    """``surface`` is what to draw on; a new one after each change of size.

    Used by one thread.  ``wait_until_open`` raises OutputError where no window can be opened;
    ``is_gone`` tells that it was lost since.
    """

    def __init__(self, size_px: tuple[int, int], full_screen: bool, display: int) -> None:
        self.surface = pygame.Surface(size_px, 0, 32)
        self.is_gone, self._opened = False, False
        self._words, self._keys = "no window", list[WindowWish]()
        self._pixels = SharedPixels()
        # A fork would carry the pose model's and the sound card's threads' locks along.
        context = multiprocessing.get_context("spawn")
        self._wire, theirs = context.Pipe()
        request = WindowRequest(size_px, full_screen, display, self._pixels.name)
        self._process = context.Process(
            target=serve, args=(theirs, request), name="window", daemon=True
        )
        with interrupts_held():
            self._process.start()
        theirs.close()

    @property
    def is_open(self) -> bool:
        """Whether it stands on the screen."""
        self._hear()
        return self._opened and not self.is_gone

    def wait_until_open(self) -> None:
        """OutputError, with the reason, if it cannot be."""
        if not self._wire.poll(_OPENS_S) or not self.is_open:
            self.close()
            raise OutputError(self._words)

    def show(self) -> None:
        """Put what was drawn on the screen, soon."""
        view: Any = self.surface.get_view("0")  # a buffer, though its stubs do not say so
        drawn = self._pixels.write(memoryview(view), self.surface.get_size())
        try:
            self._wire.send(drawn)
        except OSError:
            self.is_gone = True

    def keys(self) -> tuple[WindowWish, ...]:
        """What was asked for since last asked, in order."""
        self._hear()
        keys, self._keys = tuple(self._keys), []
        return keys

    def describe(self) -> str:
        """What was really opened, or why nothing was."""
        self._hear()
        return self._words

    def close(self) -> None:
        """Close it; a second call does nothing."""
        try:
            self._wire.send(None)
        except OSError:
            self.is_gone = True
        self._process.join(_CLOSES_S)
        self._process.kill()
        self._process.join()
        self._wire.close()
        self._pixels.remove()

    def _hear(self) -> None:
        try:
            while not self.is_gone and self._wire.poll():
                self._heed(self._wire.recv())
        except (EOFError, OSError):
            self.is_gone = True

    def _heed(self, told: Told) -> None:
        if isinstance(told, Refused):
            self._words, self.is_gone = told.words, True
        elif isinstance(told, Opened):
            self._words, self._opened = told.words, True
            if told.size_px != self.surface.get_size():
                self.surface = pygame.Surface(told.size_px, 0, 32)
        else:
            self._keys.append(told)
