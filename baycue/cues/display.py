"""Where the big screen goes: a window where there is a display, and picture files."""

import os
import sys
from pathlib import Path

import pygame

from baycue.errors import ExistsError, NoWindowError, OutputError

SIZE_PX = (1280, 720)
_UNSEEN = ("dummy", "offscreen")


class Window:
    """One resizable window; ``surface`` is what to draw on, ``show`` puts it before the golfer.

    ``display`` is which screen, from 0.  Raises OutputError, with the reason, where no window
    can be opened.
    """

    def __init__(
        self, size_px: tuple[int, int] = SIZE_PX, full_screen: bool = False, display: int = 0
    ) -> None:
        reason = _no_display()
        if reason:
            raise NoWindowError(f"no window: {reason}")
        try:
            pygame.display.init()
            _refuse_unseen()
            self._check_display(display)
            self._size_px, self._display = size_px, display
            self._open(full_screen)
        except pygame.error as error:
            raise NoWindowError(f"no window: {error}") from error

    def _check_display(self, display: int) -> None:
        count = pygame.display.get_num_displays()
        if not 0 <= display < count:
            have = "only display 0" if count == 1 else f"displays 0 to {count - 1}"
            pygame.display.quit()
            raise NoWindowError(
                f"no window: there is no display {display}; this machine has {have}"
            )

    def _open(self, full_screen: bool) -> None:
        flags = pygame.FULLSCREEN if full_screen else pygame.RESIZABLE
        size = (0, 0) if full_screen else self._size_px
        pygame.display.set_mode(size, flags, display=self._display)
        pygame.display.set_caption("Baycue")
        self._full_screen = full_screen

    def toggle_full_screen(self) -> None:
        """Over to full screen, or back to a window."""
        self._open(not self._full_screen)

    @property
    def surface(self) -> pygame.Surface:
        """The window's surface as it is now; a new one after each change of size."""
        surface = pygame.display.get_surface()
        if surface is None:
            raise NoWindowError("no window: it was closed")
        return surface

    def show(self) -> None:
        """Put what was drawn on the screen."""
        pygame.display.flip()

    def closed(self) -> bool:
        """Whether the user asked to leave since last asked: window closed, Escape or Q."""
        keys = (pygame.K_ESCAPE, pygame.K_q)
        return any(
            event.type == pygame.QUIT or (event.type == pygame.KEYDOWN and event.key in keys)
            for event in pygame.event.get()
        )

    def describe(self) -> str:
        """What was really opened."""
        width, height = self.surface.get_size()
        return f"window {width} x {height} px through {pygame.display.get_driver()}"

    def close(self) -> None:
        """Close the window."""
        pygame.display.quit()


def open_window(
    size_px: tuple[int, int] = SIZE_PX, full_screen: bool = False
) -> tuple[Window | None, str | None]:
    """A window, or None and the one-line reason why."""
    try:
        return Window(size_px, full_screen), None
    except OutputError as error:
        return None, str(error)


def save_png(surface: pygame.Surface, path: Path) -> None:
    """Write a surface as a PNG; OutputError rather than overwrite anything."""
    try:
        with path.open("xb") as file:
            pygame.image.save(surface, file, "screen.png")
    except FileExistsError as error:
        raise ExistsError(f"{path}: exists already and is not overwritten") from error
    except OSError as error:
        raise OutputError(f"{path}: cannot be written: {error.strerror}") from error


def _refuse_unseen() -> None:
    """SDL takes a display that does not answer for none, and draws where nobody sees it."""
    if pygame.display.get_driver() in _UNSEEN:
        pygame.display.quit()
        raise OutputError(f"no window: the display {os.environ.get('DISPLAY', '')} does not answer")


def _no_display() -> str:
    """Why there can be no window here, or nothing; SDL itself would fall back silently."""
    if os.environ.get("SDL_VIDEODRIVER") in _UNSEEN:
        return f'SDL_VIDEODRIVER is "{os.environ["SDL_VIDEODRIVER"]}"'
    on_unix = sys.platform.startswith(("linux", "freebsd"))
    if on_unix and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return "neither DISPLAY nor WAYLAND_DISPLAY is set"
    return ""
