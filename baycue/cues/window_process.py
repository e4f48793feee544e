"""The process that a window lives in: shows pixels from a shared memory and tells what is wished.

A window system that goes takes every program with it that has a window there (Xlib ends the
process), so the session itself has none.
"""

import signal
import time
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection

import pygame

from baycue.cues.display import Window
from baycue.cues.keys import WindowWish, wish
from baycue.cues.shared_pixels import Drawn, SharedPixels
from baycue.errors import OutputError
from baycue.process_name import call_this_process

_LOOK_S = 1 / 60
_ENDED_S, _ENDED_LOOK_S = 120.0, 0.2
_CLOSING = (pygame.KEYDOWN, pygame.QUIT, pygame.MOUSEBUTTONDOWN)
_UNCOVERED = (pygame.WINDOWEXPOSED, pygame.WINDOWSHOWN, pygame.WINDOWRESTORED)


@dataclass(frozen=True, slots=True)
class WindowRequest:
    """What to open, and the name of the memory that the pixels are in."""

    size_px: tuple[int, int]
    full_screen: bool
    display: int
    memory: str


@dataclass(frozen=True, slots=True)
class Opened:
    """The window is there, or has another size: what was really got."""

    size_px: tuple[int, int]
    words: str


@dataclass(frozen=True, slots=True)
class Refused:
    """There can be no window, and why."""

    words: str


Told = Opened | Refused | WindowWish


def serve(wire: Connection, request: WindowRequest) -> None:
    """Show what has been drawn whenever told of it, until None comes."""
    # Ctrl-C goes to every process of a terminal; this one ends when its parent says so.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    call_this_process("baycue window")
    pixels = SharedPixels(request.memory)
    try:
        window = Window(request.size_px, request.full_screen, request.display)
    except OutputError as error:
        wire.send(Refused(str(error)))
        return
    # SDL makes a mere wish to close of it; the parent's exit, which waits, means it.
    signal.signal(signal.SIGTERM, signal.SIG_DFL)
    try:
        _Server(wire, pixels, window).run()
    except (EOFError, OSError):
        _tell_the_end(window)  # the parent has died
    except pygame.error:
        return  # the display has
    finally:
        pixels.close()


def _tell_the_end(window: Window) -> None:
    """That the session is over, until a key is pressed, but not for ever."""
    from baycue.cues.stopped_page import draw_stopped

    until_s, drawn_px = time.monotonic() + _ENDED_S, (0, 0)
    with suppress(pygame.error):
        while time.monotonic() < until_s and not pygame.event.get(_CLOSING):
            pygame.event.get()
            if window.surface.get_size() != drawn_px:
                drawn_px = window.surface.get_size()
                draw_stopped(window.surface)
            window.show()
            time.sleep(_ENDED_LOOK_S)


class _Server:
    def __init__(self, wire: Connection, pixels: SharedPixels, window: Window) -> None:
        self._wire, self._pixels, self._window = wire, pixels, window
        self._drawn: Drawn | None = None
        self._told: Opened | None = None

    def run(self) -> None:
        while self._heed_wire():
            self._heed_window()
            self._tell_size()

    def _heed_wire(self) -> bool:
        """Wait a sixtieth of a second for news; False at the end."""
        came = self._wire.poll(_LOOK_S)
        while came and self._wire.poll():
            drawn: Drawn | None = self._wire.recv()
            if drawn is None:
                return False
            self._drawn = drawn
        if came:
            self._show()
        return True

    def _heed_window(self) -> None:
        for event in pygame.event.get():
            if event.type in _UNCOVERED:
                self._show()
            elif event.type == pygame.KEYDOWN and event.key in (pygame.K_f, pygame.K_F11):
                self._window.toggle_full_screen()
            elif (key := wish(event)) is not None:
                self._wire.send(key)

    def _show(self) -> None:
        if self._drawn is None:
            return
        pixels = self._pixels.read(self._drawn)
        picture = pygame.image.frombuffer(pixels, self._drawn.size_px, "BGRA")
        picture.set_alpha(None)  # the fourth byte is not used, and would make all of it clear
        self._window.surface.blit(picture, (0, 0))
        del picture
        pixels.release()
        if self._pixels.is_whole(self._drawn):
            self._window.show()

    def _tell_size(self) -> None:
        told = Opened(self._window.surface.get_size(), self._window.describe())
        if told != self._told:
            self._told = told
            self._wire.send(told)
