"""A page of large words, for what is no verdict: camera offline, ready, paused and so on."""

from baycue.cues.band import fitted_words
from baycue.cues.canvas import Canvas
from baycue.cues.letters import letters_of
from baycue.cues.live_words import UNSCORABLE, Message
from baycue.cues.marks import COLOUR, mark_picture
from baycue.cues.palette import GROUND, TEXT
from baycue.live.view import Stage

_BAND, _TOLD = 0.46, (1.25, 1.0, 0.85, 0.74)
"""The band's share of the height; cap heights of the words below it to try in turn, units."""


def draw_message(canvas: Canvas, message: Message, unit_px: float) -> None:
    """Fill the canvas: mark and headline in a band of colour, the rest below."""
    width, height = canvas.surface.get_size()
    margin, band = 0.6 * unit_px, _BAND * height
    stage = Stage.OFFLINE if message.headline == UNSCORABLE else message.stage
    canvas.surface.fill(GROUND)
    canvas.surface.fill(COLOUR[stage], (0, 0, width, round(band)))
    size = round(0.56 * band)
    canvas.surface.blit(
        mark_picture(stage, size, GROUND), (round(margin), round((band - size) / 2))
    )
    left = margin + size + 0.4 * size
    lines, letters = fitted_words(message.headline, width - margin - left, band)
    pitch = 1.4 * letters.cap_px
    top = (band - letters.cap_px - pitch * (len(lines) - 1)) / 2
    for number, line in enumerate(lines):
        canvas.put([line], letters, GROUND, left, top + number * pitch, True)
    _draw_told(canvas, message.told, unit_px, band)


def _draw_told(canvas: Canvas, told: str, unit_px: float, band_px: float) -> None:
    """The sentence, as large as fits; smaller than the least only if it never would."""
    width, height = canvas.surface.get_size()
    margin, room = 0.6 * unit_px, height - band_px
    sizes = [size * unit_px for size in _TOLD]
    sizes += [sizes[-1] * 0.9**step for step in range(1, 30)]
    for size in sizes:
        letters = letters_of(max(round(size + 0.49), 1))
        lines = letters.wrap(told, width - 2 * margin)
        if letters.height_px(len(lines)) + 1.2 * letters.cap_px <= room:
            break
    top = band_px + (room - letters.height_px(len(lines))) / 2
    canvas.put(lines, letters, TEXT, margin, top, True)
