"""The replay on a surface: verdict, picture, what was measured, and a line of the swing's time."""

from collections.abc import Sequence
from dataclasses import dataclass, field

import cv2
import numpy as np
import pygame

from baycue.capture.frame import Picture
from baycue.cues.band import draw_band
from baycue.cues.canvas import Canvas
from baycue.cues.letters import Letters, letters_of
from baycue.cues.palette import GROUND, OUTCOME, PANEL, QUIET, RULE, TEXT, Colour
from baycue.cues.shapes import outcome_shape
from baycue.cues.sizes import Columns
from baycue.replay.player import speed_words
from baycue.replay.showing import Showing, Together
from baycue.swing.swing import CheckpointName
from baycue.verdict.verdict import TargetVerdict

_BAND, _LINE, _PANEL = 0.12, 0.15, 0.30
"""Of the surface: the band's and the time line's height, the panel's width."""
_LETTER, _SMALL = 0.030, 0.019
"""Cap heights, of the surface's height."""
_SHRUNK = (1.0, 0.88, 0.76, 0.66, 0.58, 0.5)
"""Of both, where many targets leave each little room."""
_SHORT = {
    CheckpointName.ADDRESS: "P1",
    CheckpointName.TOP: "P4 top",
    CheckpointName.IMPACT: "P7 impact",
    CheckpointName.FINISH: "P10",
}


@dataclass(frozen=True, slots=True)
class ReplayPage:
    """What is drawn; two equal pages have the same pixels.

    ``help``: the keys, in small print; empty where they are told elsewhere.
    """

    key: tuple[object, ...]
    showing: Showing = field(compare=False)
    tally: str = ""
    help: str = ""


@dataclass(frozen=True, slots=True)
class TimeLine:
    """Where the line of time was drawn, and the moments that it spans, ns."""

    box: pygame.Rect
    first_ns: int
    last_ns: int

    def x_of(self, time_ns: float) -> int:
        """Where a moment lies, px."""
        share = (time_ns - self.first_ns) / max(self.last_ns - self.first_ns, 1)
        return round(self.box.left + share * self.box.width)

    def time_at(self, place: tuple[int, int]) -> float | None:
        """The moment under a point; None beside the line."""
        if not self.box.inflate(0, 3 * self.box.height).collidepoint(place):
            return None
        share = (place[0] - self.box.left) / max(self.box.width, 1)
        return self.first_ns + share * (self.last_ns - self.first_ns)


def replay_page(showing: Showing, tally: str = "", help_line: str = "") -> ReplayPage:
    """The page of a moment."""
    player = showing.player
    looped = player.loop_ns is not None
    ways = (showing.overlay, showing.together, player.speed, player.playing, looped)
    films = (id(showing.film), id(showing.other))
    key = (*films, showing.index, showing.other_index, *ways, showing.other_name, tally, help_line)
    return ReplayPage(key, showing, tally, help_line)


def draw_replay(surface: pygame.Surface, page: ReplayPage) -> TimeLine:
    """Fill the surface; returns where the line of time is."""
    width, height = surface.get_size()
    surface.fill(GROUND)
    canvas, showing = Canvas(surface), page.showing
    band, line_top = round(_BAND * height), round((1 - _LINE) * height)
    panel = round((1 - _PANEL) * width)
    margin = 0.03 * height
    columns = Columns(margin, 0.75 * band, margin + band, width - margin)
    draw_band(canvas, showing.film.scored.verdict, page.tally, columns, band)
    place = pygame.Rect(0, band, panel, line_top - band)
    _blit(surface, showing.picture(), place)
    _draw_panel(canvas, showing, pygame.Rect(panel, band, width - panel, line_top - band))
    return _draw_line(canvas, page, pygame.Rect(0, line_top, width, height - line_top))


def _blit(surface: pygame.Surface, picture: Picture, place: pygame.Rect) -> None:
    """As large as it goes, in the middle."""
    high, wide = picture.shape[:2]
    share = min(place.width / wide, place.height / high)
    size = max(round(share * wide), 1), max(round(share * high), 1)
    how = cv2.INTER_AREA if share < 1 else cv2.INTER_LINEAR
    scaled = np.ascontiguousarray(cv2.resize(picture, size, interpolation=how))
    shown = pygame.image.frombuffer(scaled.tobytes(), size, "BGR")
    surface.blit(shown, shown.get_rect(center=place.center))


def _draw_panel(canvas: Canvas, showing: Showing, place: pygame.Rect) -> None:
    """Each target: its name, value, bound and margin, all in letters so small that they fit."""
    answers = showing.film.scored.verdict.targets
    each = place.height / max(len(answers), 1)
    places = [
        pygame.Rect(place.left, round(place.top + number * each), place.width, round(each))
        for number in range(len(answers))
    ]
    shrunk = next((s for s in _SHRUNK if _all_fit(canvas, answers, places, s)), _SHRUNK[-1])
    for number, (answer, room) in enumerate(zip(answers, places, strict=True)):
        if number:
            canvas.surface.fill(RULE, (room.left + 12, room.top, room.width - 24, 2))
        _draw_answer(canvas, answer, room, shrunk)


@dataclass(frozen=True, slots=True)
class _Faces:
    """The panel's letters, and what they leave for a shape beside them, px."""

    large: Letters
    small: Letters

    @property
    def pad(self) -> int:
        return round(0.6 * self.large.cap_px)

    @property
    def shape(self) -> int:
        return round(1.6 * self.large.cap_px)

    @property
    def gap(self) -> float:
        return 0.8 * self.large.cap_px

    def room(self, place: pygame.Rect) -> int:
        return place.width - self.shape - 3 * self.pad


def _faces(canvas: Canvas, shrunk: float) -> _Faces:
    height = shrunk * canvas.surface.get_height()
    large, small = (letters_of(max(round(s * height), 1)) for s in (_LETTER, _SMALL))
    return _Faces(large, small)


def _all_fit(
    canvas: Canvas, answers: Sequence[TargetVerdict], places: Sequence[pygame.Rect], shrunk: float
) -> bool:
    faces = _faces(canvas, shrunk)
    return all(_height(a, faces, p) <= p.height for a, p in zip(answers, places, strict=True))


def _height(answer: TargetVerdict, faces: _Faces, place: pygame.Rect) -> float:
    rows = [face.height_px(len(lines)) for face, _, lines in _told(answer, faces, place)]
    return faces.pad + sum(rows) + faces.gap * len(rows)


def _told(
    answer: TargetVerdict, faces: _Faces, place: pygame.Rect
) -> list[tuple[Letters, Colour, list[str]]]:
    colour, room = OUTCOME[answer.outcome], faces.room(place)
    told = [
        (faces.large, TEXT, answer.target_name),
        *((faces.large, colour, text) for text in _figures(answer)),
        (faces.small, QUIET, _detail(answer)),
    ]
    return [(face, ink, face.wrap(text, room)) for face, ink, text in told if text]


def _draw_answer(canvas: Canvas, answer: TargetVerdict, place: pygame.Rect, shrunk: float) -> None:
    faces = _faces(canvas, shrunk)
    shape = outcome_shape(answer.outcome, faces.shape, OUTCOME[answer.outcome], GROUND)
    canvas.surface.blit(shape, (place.left + faces.pad, place.top + faces.pad))
    left, foot = place.left + faces.shape + 2 * faces.pad, float(place.top + faces.pad)
    for face, ink, lines in _told(answer, faces, place):
        if foot + face.height_px(len(lines)) <= place.bottom:
            foot = canvas.put(lines, face, ink, left, foot, False) + faces.gap


def _figures(answer: TargetVerdict) -> Sequence[str]:
    if answer.said is None:
        return ("not measured",)
    return answer.said.value, answer.said.margin_and_end


def _detail(answer: TargetVerdict) -> str:
    if answer.said is None:
        return ""
    watched = "watched: " if answer.watch_only else ""
    return f"{watched}{answer.said.bound}, give or take {answer.said.give_or_take}"


def _draw_line(canvas: Canvas, page: ReplayPage, place: pygame.Rect) -> TimeLine:
    """The swing's time from left to right with its checkpoints, and how it is played."""
    surface, showing = canvas.surface, page.showing
    surface.fill(PANEL, place)
    small = letters_of(max(round(_SMALL * surface.get_height()), 1))
    pad = 2 * small.cap_px
    box = pygame.Rect(pad, place.top + round(1.1 * pad), place.width - 2 * pad, 6)
    player = showing.player
    line = TimeLine(box, player.first_ns, player.last_ns)
    surface.fill(RULE, box)
    low, high = (line.x_of(t) for t in player.stretch_ns)
    surface.fill(QUIET, (low, box.top, max(high - low, 1), box.height))
    _draw_ticks(canvas, line, showing, small.cap_px)
    here = line.x_of(showing.film.stamps_ns[showing.index])
    pygame.draw.circle(surface, TEXT, (here, box.centery), small.cap_px * 0.6)
    foot = box.bottom + 0.8 * small.cap_px
    foot = canvas.put(small.wrap(_how(showing), box.width), small, TEXT, box.left, foot, False)
    _draw_help(canvas, page.help, pygame.Rect(box.left, foot, box.width, place.bottom - foot))
    return line


def _draw_help(canvas: Canvas, text: str, place: pygame.Rect) -> None:
    """In letters so small that all of it fits."""
    height = canvas.surface.get_height()
    faces = [letters_of(max(round(s * _SMALL * height), 1)) for s in _SHRUNK]
    folded = [(face, face.wrap(text, place.width)) for face in faces]
    fits = [f for f in folded if f[0].height_px(len(f[1])) + f[0].cap_px <= place.height]
    face, lines = (fits or folded[-1:])[0]
    if text:
        canvas.put(lines, face, QUIET, place.left, place.top + 0.5 * face.cap_px, False)


def _draw_ticks(canvas: Canvas, line: TimeLine, showing: Showing, cap_px: int) -> None:
    letters = letters_of(max(cap_px, 1))
    free_from = float("-inf")
    for name, time_ns in sorted(showing.film.checkpoints_ns.items(), key=lambda item: item[1]):
        x = line.x_of(time_ns)
        canvas.surface.fill(TEXT, (x - 1, line.box.top - 6, 3, line.box.height + 12))
        word = _SHORT.get(name, name.value if name is not CheckpointName.TAKEAWAY else "")
        left = min(x - 2, line.box.right - round(letters.width_px(word)))
        if not word or left < free_from:
            continue
        canvas.put([word], letters, QUIET, left, line.box.top - 2.0 * cap_px, False)
        free_from = left + letters.width_px(f"{word}  ")


def _how(showing: Showing) -> str:
    """How it is played, in a line."""
    player = showing.player
    state = speed_words(player.speed) if player.playing else "stopped"
    parts = [state, "downswing again and again" if player.loop_ns else "", showing.overlay.value]
    if showing.other is None:
        parts.append(showing.other_name)
    elif showing.together is not Together.ALONE:
        parts.append(f"with {showing.other_name or 'another swing'}: {showing.together.value}")
    moment = _nearest(showing)
    return ".   ".join(p for p in (moment, *parts) if p)


def _nearest(showing: Showing) -> str:
    """``120 ms before impact``: where the picture shown lies."""
    impact = showing.film.checkpoints_ns.get(CheckpointName.IMPACT)
    if impact is None:
        return ""
    off_ms = (showing.film.stamps_ns[showing.index] - impact) / 1e6
    return f"{abs(off_ms):.0f} ms {'after' if off_ms >= 0 else 'before'} impact"
