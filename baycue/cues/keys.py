"""What the golfer may ask for at the keyboard, and on which key."""

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


def wish(event: pygame.event.Event) -> Key | None:
    """What an event asks for, if anything; closing the window asks to quit."""
    if event.type == pygame.QUIT:
        return Key.QUIT
    return _WISH.get(event.key) if event.type == pygame.KEYDOWN else None
