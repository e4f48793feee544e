"""A surface to set lines on, which remembers where every line went."""

from dataclasses import dataclass, field

import pygame

from baycue.cues.letters import DESCENDER, Letters
from baycue.cues.palette import Colour


@dataclass(frozen=True, slots=True)
class DrawnLine:
    """One line as drawn: its text, its box in pixels, its capitals' height, and whether the
    golfer must be able to read it from where the club is swung.
    """

    text: str
    box: pygame.Rect
    cap_px: int
    must_read: bool


@dataclass(slots=True)
class Canvas:
    """A surface and the lines drawn on it so far."""

    surface: pygame.Surface
    lines: list[DrawnLine] = field(default_factory=list)

    def put(
        self,
        text: list[str],
        letters: Letters,
        colour: Colour,
        left_px: float,
        top_px: float,
        must_read: bool,
        right_aligned: bool = False,
    ) -> float:
        """Set lines from ``top_px`` (top of the first capitals) down; returns their foot.

        ``left_px`` is the left edge, or the right one if ``right_aligned``.
        """
        for index, line in enumerate(text):
            width = letters.width_px(line)
            left = round(left_px - width if right_aligned else left_px)
            top = round(top_px + index * letters.pitch_px)
            letters.draw(self.surface, line, colour, left, top)
            box = pygame.Rect(left, top, width, round((1 + DESCENDER) * letters.cap_px))
            self.lines.append(DrawnLine(line, box, letters.cap_px, must_read))
        return top_px + letters.height_px(len(text))
