"""The mark of each stage and of each set-up answer: told by shape, whatever the colour."""

import math
from collections.abc import Callable
from functools import lru_cache
from itertools import pairwise

import pygame

from baycue.cues.palette import CALM, OUTCOME, Colour
from baycue.live.view import Stage
from baycue.setup.report import Answer
from baycue.verdict.verdict import Outcome

_FINER = 4
Mark = Stage | Answer

COLOUR: dict[Mark, Colour] = {
    Stage.OFFLINE: OUTCOME[Outcome.FAIL],
    Stage.SET_UP: OUTCOME[Outcome.TOO_CLOSE],
    Stage.WAITING: CALM,
    Stage.ADDRESS: OUTCOME[Outcome.TOO_CLOSE],
    Stage.SWING: OUTCOME[Outcome.TOO_CLOSE],
    Stage.VERDICT: CALM,
    Stage.PAUSED: OUTCOME[Outcome.TOO_CLOSE],
    Answer.GO: OUTCOME[Outcome.PASS],
    Answer.NO_GO: OUTCOME[Outcome.FAIL],
    Answer.UNSURE: OUTCOME[Outcome.TOO_CLOSE],
}


@lru_cache(maxsize=64)
def mark_picture(mark: Mark, size_px: int, ink: Colour) -> pygame.Surface:
    """A (size, size) picture with a clear background, drawn large and scaled for clean edges."""
    large = size_px * _FINER
    surface = pygame.Surface((large, large), pygame.SRCALPHA)
    surface.fill((*ink, 0))
    _DRAW[mark](surface, large, ink)
    return pygame.transform.smoothscale(surface, (size_px, size_px))


def _cross(surface: pygame.Surface, size: int, ink: Colour) -> None:
    _stroke(surface, size, ink, [(0.16, 0.16), (0.84, 0.84)])
    _stroke(surface, size, ink, [(0.84, 0.16), (0.16, 0.84)])


def _tick(surface: pygame.Surface, size: int, ink: Colour) -> None:
    _stroke(surface, size, ink, [(0.10, 0.55), (0.38, 0.82), (0.90, 0.18)])


def _question(surface: pygame.Surface, size: int, ink: Colour) -> None:
    turn = [math.radians(angle) for angle in range(-180, 100, 10)]
    hook = [(0.5 + 0.24 * math.cos(a), 0.32 + 0.24 * math.sin(a)) for a in turn]
    _stroke(surface, size, ink, [*hook, (0.5, 0.66)], 0.13)
    pygame.draw.circle(surface, ink, (0.5 * size, 0.89 * size), 0.09 * size)


def _ring(surface: pygame.Surface, size: int, ink: Colour) -> None:
    pygame.draw.circle(surface, ink, (size / 2, size / 2), 0.44 * size, round(0.12 * size))


def _ball(surface: pygame.Surface, size: int, ink: Colour) -> None:
    _ring(surface, size, ink)
    pygame.draw.circle(surface, ink, (size / 2, size / 2), 0.22 * size)


def _sweep(surface: pygame.Surface, size: int, ink: Colour) -> None:
    """The club's way, ending in an arrow's head."""
    turn = [math.radians(angle) for angle in range(-200, 20, 10)]
    _stroke(
        surface, size, ink, [(0.46 + 0.34 * math.cos(a), 0.5 + 0.34 * math.sin(a)) for a in turn]
    )
    head = [(0.56, 0.60), (1.0, 0.60), (0.76, 0.92)]
    pygame.draw.polygon(surface, ink, [(x * size, y * size) for x, y in head])


def _bars(surface: pygame.Surface, size: int, ink: Colour) -> None:
    for left in (0.16, 0.60):
        surface.fill(ink, (left * size, 0.10 * size, 0.24 * size, 0.80 * size))


def _flag(surface: pygame.Surface, size: int, ink: Colour) -> None:
    surface.fill(ink, (0.22 * size, 0.08 * size, 0.10 * size, 0.84 * size))
    corners = [(0.32, 0.08), (0.88, 0.28), (0.32, 0.50)]
    pygame.draw.polygon(surface, ink, [(x * size, y * size) for x, y in corners])


def _stroke(
    surface: pygame.Surface,
    size: int,
    ink: Colour,
    points: list[tuple[float, float]],
    width: float = 0.17,
) -> None:
    places = [pygame.Vector2(x * size, y * size) for x, y in points]
    for one, other in pairwise(places):
        # pygame's own thick lines grow thinner the more they slant
        side = (other - one).rotate(90)
        side.scale_to_length(width * size / 2)
        pygame.draw.polygon(surface, ink, [one + side, other + side, other - side, one - side])
    for place in places:
        pygame.draw.circle(surface, ink, place, width * size / 2)


_DRAW: dict[Mark, Callable[[pygame.Surface, int, Colour], None]] = {
    Stage.OFFLINE: _cross,
    Stage.SET_UP: _question,
    Stage.WAITING: _ring,
    Stage.ADDRESS: _ball,
    Stage.SWING: _sweep,
    Stage.VERDICT: _flag,
    Stage.PAUSED: _bars,
    Answer.GO: _tick,
    Answer.NO_GO: _cross,
    Answer.UNSURE: _question,
}
