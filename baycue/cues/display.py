"""Where the big screen goes: a window where there is a display, and picture files."""

import os
import sys
from pathlib import Path

import pygame

from baycue.errors import OutputError

SIZE_PX = (1280, 720)


class Window:
    """One resizable window; ``surface`` is what to draw on, ``show`` puts it before the golfer.

    Raises OutputError, with the reason, where no window can be opened.
    """

    def __init__(self, size_px: tuple[int, int] = SIZE_PX, full_screen: bool = False) -> None:
        reason = _no_display()
        if reason:
            raise OutputError(f"no window: {reason}")
        try:
            pygame.display.init()
            flags = pygame.FULLSCREEN if full_screen else pygame.RESIZABLE
            pygame.display.set_mode((0, 0) if full_screen else size_px, flags)
            pygame.display.set_caption("Baycue")
        except pygame.error as error:
            raise OutputError(f"no window: {error}") from error

    @property
    def surface(self) -> pygame.Surface:
        """The window's surface as it is now; a new one after each change of size."""
        surface = pygame.display.get_surface()
        if surface is None:
            raise OutputError("no window: it was closed")
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
        raise OutputError(f"{path}: exists already and is not overwritten") from error
    except OSError as error:
        raise OutputError(f"{path}: cannot be written: {error.strerror}") from error


def _no_display() -> str:
    """Why there can be no window here, or nothing; SDL itself would fall back silently."""
    if os.environ.get("SDL_VIDEODRIVER") in ("dummy", "offscreen"):
        return f'SDL_VIDEODRIVER is "{os.environ["SDL_VIDEODRIVER"]}"'
    on_unix = sys.platform.startswith(("linux", "freebsd"))
    if on_unix and not (os.environ.get("DISPLAY") or os.environ.get("WAYLAND_DISPLAY")):
        return "neither DISPLAY nor WAYLAND_DISPLAY is set"
    return ""
