"""The replay's keys and mouse, and what each does to what is shown."""

from collections.abc import Callable
from dataclasses import replace
from enum import Enum

import pygame

from baycue.replay.overlay import next_overlay
from baycue.replay.page import TimeLine
from baycue.replay.showing import Showing, downswing_ns
from baycue.swing.swing import CheckpointName

HELP = (
    "Space play, stop; Left Right one picture; Up Down faster, slower; 1 to 0 checkpoints; "
    "L downswing; O drawing; PageDown PageUp other swings; B side by side, ghost, alone; "
    "M film; I GIF; T still; F full screen; Q quit"
)
LIVE_HELP = (
    "Left Right one picture; Up Down faster, slower; 1 to 0 checkpoints; L downswing; O drawing"
)
"""The keys that a live screen heeds while the last swing is seen again."""

_CHECKPOINTS = {
    pygame.K_1: CheckpointName.ADDRESS,
    pygame.K_2: CheckpointName.P2,
    pygame.K_3: CheckpointName.P3,
    pygame.K_4: CheckpointName.TOP,
    pygame.K_5: CheckpointName.P5,
    pygame.K_6: CheckpointName.P6,
    pygame.K_7: CheckpointName.IMPACT,
    pygame.K_8: CheckpointName.P8,
    pygame.K_0: CheckpointName.FINISH,
}
"""By the coaches' numbers: 4 is P4, the top; 0 is P10."""


class Export(Enum):
    """A view to be written to a file, and the ending of its name."""

    FILM = ".mp4"
    GIF = ".gif"
    STILL = ".png"


EXPORTS = {pygame.K_m: Export.FILM, pygame.K_i: Export.GIF, pygame.K_t: Export.STILL}


def heeded(showing: Showing, event: pygame.event.Event, line: TimeLine | None) -> Showing:
    """What is shown after an event; ``line``: where the line of time was drawn last."""
    if event.type == pygame.KEYDOWN:
        return pressed(showing, event.key)
    if event.type == pygame.MOUSEWHEEL:
        return _stepped(showing, -1 if event.y > 0 else 1)
    if event.type == pygame.MOUSEBUTTONDOWN and event.button == 1:
        return _clicked(showing, event.pos, line)
    if event.type == pygame.MOUSEMOTION and event.buttons[0]:
        return _dragged(showing, event.pos, line)
    return showing


def pressed(showing: Showing, key: int) -> Showing:
    """What is shown after a key, by pygame's code."""
    if key in _CHECKPOINTS:
        return jumped(showing, _CHECKPOINTS[key])
    change = _CHANGES.get(key)
    return change(showing) if change else showing


def jumped(showing: Showing, name: CheckpointName) -> Showing:
    """Standing at a checkpoint; as before where there is none."""
    time_ns = showing.film.checkpoints_ns.get(name)
    if time_ns is None:
        return showing
    return replace(showing, player=showing.player.moved_to(time_ns))


def _clicked(showing: Showing, place: tuple[int, int], line: TimeLine | None) -> Showing:
    """On the line of time: to that moment; anywhere else: play or stop."""
    moved = _dragged(showing, place, line)
    return _toggled(showing) if moved is showing else moved


def _dragged(showing: Showing, place: tuple[int, int], line: TimeLine | None) -> Showing:
    time_ns = line.time_at(place) if line else None
    if time_ns is None:
        return showing
    return replace(showing, player=showing.player.moved_to(time_ns))


def _toggled(showing: Showing) -> Showing:
    return replace(showing, player=showing.player.paused(not showing.player.playing))


def _stepped(showing: Showing, by: int) -> Showing:
    return replace(showing, player=showing.player.stepped(showing.film.stamps_ns, by))


def _slower(showing: Showing, by: int) -> Showing:
    return replace(showing, player=showing.player.slower(by))


def _looped(showing: Showing) -> Showing:
    """The downswing again and again, or all of it."""
    stretch = None if showing.player.loop_ns else downswing_ns(showing.film)
    return replace(showing, player=showing.player.looping(stretch))


_CHANGES: dict[int, Callable[[Showing], Showing]] = {
    pygame.K_SPACE: _toggled,
    pygame.K_LEFT: lambda s: _stepped(s, -1),
    pygame.K_RIGHT: lambda s: _stepped(s, 1),
    pygame.K_DOWN: lambda s: _slower(s, 1),
    pygame.K_UP: lambda s: _slower(s, -1),
    pygame.K_l: _looped,
    pygame.K_o: lambda s: replace(s, overlay=next_overlay(s.overlay)),
    pygame.K_b: Showing.with_next_together,
}
