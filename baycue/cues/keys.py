"""What the golfer may ask for at the keyboard, and on which key."""

from dataclasses import dataclass
from enum import Enum

import pygame


class Key(Enum):
    """A wish, by what the help line calls it."""

    PAUSE = "pause"
    REPLAY = "again"
    ANSWER = "answer"
    NEXT_TARGETS = "next targets"
    SKIP = "skip"
    SKIP_BLOCK = "next block"
    SOUND_CHECK = "sound"
    SET_UP = "check"
    QUIT = "quit"


@dataclass(frozen=True, slots=True)
class ReplayKey:
    """A key of the replay, by pygame's code, for while the last swing is seen again."""

    code: int


class Pointing(Enum):
    """What the mouse does."""

    CLICK = "click"
    DRAG = "drag"
    WHEEL_BACK = "wheel back"
    WHEEL_ON = "wheel on"


@dataclass(frozen=True, slots=True)
class Pointed:
    """The mouse did something at a place of the window, px."""

    how: Pointing
    place_px: tuple[int, int]


@dataclass(frozen=True, slots=True)
class ReplayPointed:
    """The mouse on the replay; ``time_ns``: the moment under it, None beside the line of time."""

    how: Pointing
    time_ns: float | None


WindowWish = Key | ReplayKey | Pointed
"""What a window tells, which does not know what it shows."""
Wish = Key | ReplayKey | ReplayPointed
"""What a screen tells."""

_LETTERS = (pygame.K_l, pygame.K_o, pygame.K_g, pygame.K_h, pygame.K_m, pygame.K_i, pygame.K_t)
_OF_REPLAY = frozenset(
    [pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN, pygame.K_PAGEDOWN, pygame.K_PAGEUP]
    + [*_LETTERS]
    + [pygame.K_0 + number for number in (0, 1, 2, 3, 4, 5, 6, 7, 8)]
)
_ON: dict[Key, tuple[int, ...]] = {
    Key.PAUSE: (pygame.K_SPACE, pygame.K_p),
    Key.REPLAY: (pygame.K_r,),
    Key.ANSWER: (pygame.K_a, pygame.K_RETURN),
    Key.NEXT_TARGETS: (pygame.K_n,),
    Key.SKIP: (pygame.K_k,),
    Key.SKIP_BLOCK: (pygame.K_b,),
    Key.SOUND_CHECK: (pygame.K_s,),
    Key.SET_UP: (pygame.K_c,),
    Key.QUIT: (pygame.K_ESCAPE, pygame.K_q),
}
_WISH = {code: key for key, codes in _ON.items() for code in codes}

HELP = (
    "Space pause   R again   A answer   N next targets   S sound   C check   F full screen   Q quit"
)

PRACTICE_HELP = f"K skip   B next block   {HELP}"


def wish(event: pygame.event.Event) -> WindowWish | None:
    """What an event asks for, if anything; closing the window asks to quit."""
    if event.type == pygame.QUIT:
        return Key.QUIT
    pointed = pointed_by(event)
    if pointed is not None:
        return pointed
    if event.type == pygame.KEYDOWN and event.key in _OF_REPLAY:
        return ReplayKey(event.key)
    return _WISH.get(event.key) if event.type == pygame.KEYDOWN else None


def pointed_by(event: pygame.event.Event) -> Pointed | None:
    """What the mouse did, if an event is of it: first button and wheel."""
    if event.type == pygame.MOUSEWHEEL:
        return Pointed(Pointing.WHEEL_BACK if event.y > 0 else Pointing.WHEEL_ON, (0, 0))
    if event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
        return Pointed(Pointing.CLICK, event.pos)
    if event.type == pygame.MOUSEMOTION and event.buttons[0]:
        return Pointed(Pointing.DRAG, event.pos)
    return None
