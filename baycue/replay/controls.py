"""The replay's keys and mouse, and what each does to what is shown."""

from collections.abc import Callable
from dataclasses import replace

import pygame

from baycue.cues.keys import Pointing, pointed_by
from baycue.replay.export import Export
from baycue.replay.overlay import next_overlay
from baycue.replay.page import TimeLine
from baycue.replay.showing import Showing, downswing_ns
from baycue.swing.swing import CheckpointName

HELP = (
    "Space or H play, stop; Left Right one picture; Up Down faster, slower; 1 to 0 checkpoints; "
    "L downswing; O drawing; PageDown PageUp other swings; B or G side by side, ghost, alone; "
    "M film; I GIF; T still; F full screen; Q quit"
)
LIVE_HELP = (
    "H, click play, stop; Left Right, wheel one picture; Up Down faster, slower; "
    "1 to 0 checkpoints; L downswing; O drawing; PageDown PageUp other swings; "
    "G side by side, ghost, alone; M film; I GIF; T still"
)
"""The keys that a live screen heeds while the last swing is seen again.

Space and B have another meaning there: pause, and the next block of a laid-out session.
"""

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


WALK = {pygame.K_PAGEDOWN: 1, pygame.K_PAGEUP: -1}
"""How many swings further back a key goes."""

EXPORTS = {pygame.K_m: Export.FILM, pygame.K_i: Export.GIF, pygame.K_t: Export.STILL}


def heeded(showing: Showing, event: pygame.event.Event, line: TimeLine | None) -> Showing:
    """What is shown after an event; ``line``: where the line of time was drawn last."""
    if event.type == pygame.KEYDOWN:
        return pressed(showing, event.key)
    mouse = pointed_by(event)
    if mouse is None:
        return showing
    return pointed(showing, mouse.how, line.time_at(mouse.place_px) if line else None)


def pointed(showing: Showing, how: Pointing, time_ns: float | None) -> Showing:
    """What is shown after the mouse; ``time_ns``: the moment under it on the line of time.

    A click on that goes there, one anywhere else plays or stops.
    """
    if how is Pointing.WHEEL_BACK or how is Pointing.WHEEL_ON:
        return _stepped(showing, -1 if how is Pointing.WHEEL_BACK else 1)
    if time_ns is not None:
        return replace(showing, player=showing.player.moved_to(time_ns))
    return _toggled(showing) if how is Pointing.CLICK else showing


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
    pygame.K_h: _toggled,
    pygame.K_LEFT: lambda s: _stepped(s, -1),
    pygame.K_RIGHT: lambda s: _stepped(s, 1),
    pygame.K_DOWN: lambda s: _slower(s, 1),
    pygame.K_UP: lambda s: _slower(s, -1),
    pygame.K_l: _looped,
    pygame.K_o: lambda s: replace(s, overlay=next_overlay(s.overlay)),
    pygame.K_b: Showing.with_next_together,
    pygame.K_g: Showing.with_next_together,
}
