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


_OF_REPLAY = frozenset(
    [pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN, pygame.K_l, pygame.K_o]
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


def wish(event: pygame.event.Event) -> Key | ReplayKey | None:
    """What an event asks for, if anything; closing the window asks to quit."""
    if event.type == pygame.QUIT:
        return Key.QUIT
    if event.type == pygame.KEYDOWN and event.key in _OF_REPLAY:
        return ReplayKey(event.key)
    return _WISH.get(event.key) if event.type == pygame.KEYDOWN else None
