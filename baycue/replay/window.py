"""The replay in a window of its own, until it is closed."""

import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pygame

from baycue.cues.display import Window
from baycue.errors import BaycueError
from baycue.replay.controls import EXPORTS, HELP, WALK, heeded
from baycue.replay.export import Export, exported
from baycue.replay.others import NO_OTHERS, Others, walk
from baycue.replay.page import ReplayPage, TimeLine, draw_replay, replay_page
from baycue.replay.showing import Showing

_LOOK_S = 1 / 60


def run_window(
    window: Window,
    showing: Showing,
    out: Path,
    stem: str,
    say: Callable[[str], None],
    others: Others = NO_OTHERS,
) -> None:
    """Show until the golfer quits; exports go to the first free name in ``out``.

    ``others``: the swings that may be walked through; ``showing`` has the chosen one already.
    """
    drawn: tuple[ReplayPage, tuple[int, int]] | None = None
    line: TimeLine | None = None
    last_ns = time.monotonic_ns()
    while True:
        for event in pygame.event.get():
            if _asks_to_quit(event):
                return
            if event.type == pygame.KEYDOWN and event.key in EXPORTS:
                _export(showing, EXPORTS[event.key], out, stem, say)
            elif event.type == pygame.KEYDOWN and event.key in (pygame.K_f, pygame.K_F11):
                window.toggle_full_screen()
            elif event.type == pygame.KEYDOWN and event.key in WALK:
                showing, others = walk(showing, others, WALK[event.key])
                last_ns = time.monotonic_ns()  # reading a film took its time
            elif event.type == pygame.WINDOWEXPOSED:
                drawn = None
            showing = heeded(showing, event, line)
        now_ns = time.monotonic_ns()
        showing, last_ns = _later(showing, now_ns - last_ns), now_ns
        wanted = replay_page(showing, help_line=HELP), window.surface.get_size()
        if wanted != drawn:
            line = draw_replay(window.surface, wanted[0])
            window.show()
            drawn = wanted
        time.sleep(_LOOK_S)


def _later(showing: Showing, elapsed_ns: int) -> Showing:
    return replace(showing, player=showing.player.after(elapsed_ns))


def _asks_to_quit(event: pygame.event.Event) -> bool:
    if event.type == pygame.QUIT:
        return True
    return event.type == pygame.KEYDOWN and event.key in (pygame.K_q, pygame.K_ESCAPE)


def _export(
    showing: Showing, what: Export, out: Path, stem: str, say: Callable[[str], None]
) -> None:
    try:
        path = exported(showing, what, out, stem)
    except (BaycueError, OSError) as error:
        say(str(error))
        return
    say(f"written to {path}")
