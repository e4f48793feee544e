"""The shape of each answer: a hole and a ball, so that it can be told without colour.

pass       the ball is in the hole
fail       the ball lies beside the hole
too close  the ball hangs on the rim
"""

import pygame

from baycue.cues.palette import Colour
from baycue.verdict.verdict import Outcome

_FINER = 4


def outcome_shape(outcome: Outcome, size_px: int, ink: Colour, ground: Colour) -> pygame.Surface:
    """A (size, size) picture with a clear background, drawn large and scaled for clean edges."""
    large = size_px * _FINER
    surface = pygame.Surface((large, large), pygame.SRCALPHA)
    surface.fill((*ink, 0))
    _DRAW[outcome](surface, large, ink, ground)
    return pygame.transform.smoothscale(surface, (size_px, size_px))


def _ball_in_hole(surface: pygame.Surface, size: int, ink: Colour, ground: Colour) -> None:
    middle = (size / 2, size / 2)
    pygame.draw.circle(surface, ink, middle, 0.48 * size)
    pygame.draw.circle(surface, ground, middle, 0.22 * size)


def _ball_beside_hole(surface: pygame.Surface, size: int, ink: Colour, _ground: Colour) -> None:
    _hole(surface, size, ink)
    pygame.draw.circle(surface, ink, (0.80 * size, 0.80 * size), 0.19 * size)


def _ball_on_rim(surface: pygame.Surface, size: int, ink: Colour, ground: Colour) -> None:
    _hole(surface, size, ink)
    middle = (0.62 * size, 0.62 * size)
    pygame.draw.circle(surface, (*ground, 0), middle, 0.27 * size)
    pygame.draw.circle(surface, ink, middle, 0.19 * size)


def _hole(surface: pygame.Surface, size: int, ink: Colour) -> None:
    pygame.draw.circle(surface, ink, (0.36 * size, 0.36 * size), 0.34 * size, round(0.09 * size))


_DRAW = {
    Outcome.PASS: _ball_in_hole,
    Outcome.FAIL: _ball_beside_hole,
    Outcome.TOO_CLOSE: _ball_on_rim,
}
