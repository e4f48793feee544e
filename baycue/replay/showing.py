"""What a replay shows at a moment: one swing, or two beside or over each other."""

from dataclasses import dataclass, replace
from enum import Enum

import cv2
import numpy as np

from baycue.capture.frame import Picture
from baycue.replay.align import Alignment, aligned
from baycue.replay.film import SwingFilm
from baycue.replay.overlay import Overlay, about_golfer, ghosted, painted, same_way_round, turned
from baycue.replay.player import Player
from baycue.swing.swing import CheckpointName

_MARGIN_NS = 100_000_000
"""Shown before the top and after impact when the downswing is looped."""

_SHARE = 0.5
"""Of each picture's width, when two stand side by side."""


class Together(Enum):
    """How the other swing is shown."""

    BESIDE = "side by side"
    GHOST = "ghost"
    ALONE = "alone"


@dataclass(frozen=True, slots=True)
class Showing:
    """A film, where it is, and the film it is compared with, if any.

    ``other_name``: which swing that is, or why there is none.
    """

    film: SwingFilm
    player: Player
    overlay: Overlay = Overlay.MEASURED
    other: SwingFilm | None = None
    together: Together = Together.BESIDE
    other_name: str = ""

    @property
    def index(self) -> int:
        """The picture shown."""
        return self.film.index_at(self.player.at_ns)

    @property
    def other_index(self) -> int | None:
        """The other film's picture of the same moment of the swing."""
        if self.other is None or self.together is Together.ALONE:
            return None
        there = self._alignment(self.other).there(self.film.stamps_ns[self.index])
        return self.other.index_at(there)

    def _alignment(self, other: SwingFilm) -> Alignment:
        return aligned(self.film.checkpoints_ns, other.checkpoints_ns)

    def picture(self) -> Picture:
        """What is to be seen, drawn on."""
        mine, there = painted(self.film, self.index, self.overlay), self.other_index
        if self.other is None or there is None:
            return mine
        shown = painted(self.other, there, self.overlay)
        theirs = same_way_round(shown, self.other, self.film)
        if self.together is Together.GHOST:
            return ghosted(mine, theirs, self.other, self.film)
        left = about_golfer(mine, self.film, False, _SHARE)
        is_turned = turned(self.other, self.film)
        right = about_golfer(theirs, self.other, is_turned, _SHARE)
        return np.hstack([left, _as_high(right, left.shape[0])])

    def with_faces_blurred(self) -> "Showing":
        """The same with every golfer's head made unrecognisable."""
        other = replace(self.other, blur_faces=True) if self.other else None
        return replace(self, film=replace(self.film, blur_faces=True), other=other)

    def with_next_together(self) -> "Showing":
        """Side by side, ghost, alone, and round again; nothing without another swing."""
        ways = list(Together)
        following = ways[(ways.index(self.together) + 1) % len(ways)]
        return replace(self, together=following) if self.other else self


def showing(film: SwingFilm, other: SwingFilm | None = None, speed: float = 0.25) -> Showing:
    """From the film's beginning; ValueError if the two swings share no checkpoint."""
    if other is not None:
        aligned(film.checkpoints_ns, other.checkpoints_ns)
    first, last = film.stamps_ns[0], film.stamps_ns[-1]
    return Showing(film, Player(first, last, first, speed), other=other)


def downswing_ns(film: SwingFilm) -> tuple[int, int] | None:
    """From just before the top to just after impact, within the film; None if not known."""
    top, impact = (
        film.checkpoints_ns.get(name) for name in (CheckpointName.TOP, CheckpointName.IMPACT)
    )
    if top is None or impact is None or impact <= top:
        return None
    first, last = film.stamps_ns[0], film.stamps_ns[-1]
    return max(top - _MARGIN_NS, first), min(impact + _MARGIN_NS, last)


def _as_high(picture: Picture, height_px: int) -> Picture:
    if picture.shape[0] == height_px:
        return picture
    width = round(picture.shape[1] * height_px / picture.shape[0])
    scaled = cv2.resize(picture, (width, height_px), interpolation=cv2.INTER_AREA)
    return np.asarray(scaled, dtype=np.uint8)
