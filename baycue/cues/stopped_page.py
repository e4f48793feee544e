"""What is left to say when the session's process has died: on the window, which lives on."""

import pygame

from baycue.cues.canvas import Canvas
from baycue.cues.letters import Viewing
from baycue.cues.live_words import Message
from baycue.cues.message import draw_message
from baycue.cues.screen import letter_unit_px
from baycue.live.view import Stage

STOPPED = Message(
    Stage.OFFLINE,
    "STOPPED",
    "The session ended by itself. What was answered before is kept. Start it again: it goes on. "
    "Any key closes this.",
)


def draw_stopped(surface: pygame.Surface, viewing: Viewing | None = None) -> None:
    """Fill the surface."""
    unit_px = letter_unit_px(surface.get_size(), viewing or Viewing())
    draw_message(Canvas(surface), STOPPED, unit_px)
