"""Letters of a wanted height: how large they must be, and lines set in them."""

import math
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import pygame
import pygame.freetype

from baycue.cues.palette import Colour

PREFERRED_ARCMIN = 22.0
"""Cap height the golfer must be able to read: 20 to 22 preferred, 16 the least.

ISO 9241-3 and NUREG-0700, read in a secondary source.
"""

LEAST_ARCMIN = 16.0

LINE_PITCH = 1.45
DESCENDER = 0.30
_FONT_FILE = Path(pygame.__file__).parent / "freesansbold.ttf"


@dataclass(frozen=True, slots=True)
class Viewing:
    """How far the golfer stands from how wide a screen.

    The usual: 4 m from a 24-inch 16:9 panel, 0.531 m wide.
    """

    distance_m: float = 4.0
    screen_width_m: float = 0.531


def letter_height_px(
    distance_m: float, arcmin: float, screen_width_m: float, width_px: int
) -> float:
    """Height in pixels that subtends ``arcmin`` at the eye: 2 d tan(angle / 2)."""
    height_m = 2 * distance_m * math.tan(math.radians(arcmin / 60) / 2)
    return height_m / screen_width_m * width_px


@dataclass(frozen=True, slots=True)
class Letters:
    """Letters whose capitals are ``cap_px`` high."""

    font: pygame.freetype.Font
    cap_px: int

    @property
    def pitch_px(self) -> float:
        """From one line's capitals to the next line's."""
        return LINE_PITCH * self.cap_px

    def height_px(self, lines: int) -> float:
        """Of so many lines, from the first capitals' top to the last capitals' foot."""
        return (lines - 1) * self.pitch_px + self.cap_px if lines else 0.0

    def width_px(self, text: str) -> int:
        """Of one line's ink and the space before it."""
        return _width_px(self.font, text)

    def draw(
        self, surface: pygame.Surface, text: str, colour: Colour, left_px: int, top_px: int
    ) -> None:
        """Draw one line whose capitals' top is at ``top_px``."""
        self.font.render_to(surface, (left_px, top_px + self.cap_px), text, colour)

    def wrap(self, text: str, width_px: float) -> list[str]:
        """The text in lines no wider than ``width_px``; a word too wide is broken."""
        lines: list[str] = []
        for word in text.split():
            joined = f"{lines[-1]} {word}" if lines else word
            if lines and self.width_px(joined) <= width_px:
                lines[-1] = joined
            else:
                lines += self._broken(word, width_px)
        return lines

    def _broken(self, word: str, width_px: float) -> list[str]:
        parts = [""]
        for letter in word:
            if parts[-1] and self.width_px(parts[-1] + letter) > width_px:
                parts.append("")
            parts[-1] += letter
        return parts


@lru_cache(maxsize=256)
def letters_of(cap_px: int) -> Letters:
    """Letters whose capital H is at least ``cap_px`` high, in the font pygame brings along."""
    pygame.freetype.init()
    size = max(round(cap_px / 0.75), 4)
    font = pygame.freetype.Font(str(_FONT_FILE), size)
    font.kerning = False  # the font's own table pushes k-n, k-l and E-A apart
    font.origin = True
    while font.get_rect("H").height < cap_px:
        size += 1
        font.size = size
    return Letters(font, font.get_rect("H").height)


@lru_cache(maxsize=512)  # a page or two: every picture of a replay has a line of its own
def _width_px(font: pygame.freetype.Font, text: str) -> int:
    box = font.get_rect(text)
    return int(box.x + box.width)
