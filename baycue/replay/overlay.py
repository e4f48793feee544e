"""One picture of a swing with what was found drawn on it, and nothing that was not measured."""

from enum import Enum

import cv2
import numpy as np

from baycue.capture.frame import Picture
from baycue.measures.marks import Sight
from baycue.replay.film import SwingFilm
from baycue.report.annotate import marks_of
from baycue.report.drawing import draw_body, draw_marks, draw_shaft

GHOST_SHARE = 0.45


class Overlay(Enum):
    """What is drawn on the picture."""

    MEASURED = "what is measured"
    BODY = "body too"
    NOTHING = "picture alone"


def next_overlay(overlay: Overlay) -> Overlay:
    """The one after it, round and round."""
    all_of_them = list(Overlay)
    return all_of_them[(all_of_them.index(overlay) + 1) % len(all_of_them)]


def painted(film: SwingFilm, index: int, overlay: Overlay) -> Picture:
    """One picture of a film, drawn on."""
    picture, sight = film.picture(index), film.sight(index)
    if sight is None or overlay is Overlay.NOTHING:
        return picture
    if overlay is Overlay.BODY:
        draw_body(picture, sight.pose)
    if sight.shaft is not None:
        draw_shaft(picture, sight.pose, sight.shaft, sight.stance)
    draw_marks(picture, marks_of(film.scored, sight))
    return picture


def same_way_round(picture: Picture, film: SwingFilm, like: SwingFilm) -> Picture:
    """Mirrored where the two golfers' targets lie on different sides of the picture."""
    return np.ascontiguousarray(picture[:, ::-1]) if turned(film, like) else picture


def turned(film: SwingFilm, like: SwingFilm) -> bool:
    """Whether a film's pictures must be mirrored for its target to lie where the other's does."""
    ours, theirs = (f.scored.evidence.stance.toward_target for f in (like, film))
    return ours != theirs


def ghosted(below: Picture, over: Picture, film: SwingFilm, like: SwingFilm) -> Picture:
    """``over``, a picture of ``film`` turned the same way round, laid faintly over ``below``.

    Moved and scaled so that at address the feet and the body's size are the same.
    """
    to, start = _footing(like.address_sight), _footing(film.address_sight)
    foot = np.array([over.shape[1] - 1 - start[0], start[1]]) if turned(film, like) else start
    scale = like.address_sight.body_px / film.address_sight.body_px
    move = to - scale * foot
    warp = np.array([[scale, 0.0, move[0]], [0.0, scale, move[1]]])
    size = (below.shape[1], below.shape[0])
    laid = cv2.warpAffine(over, warp, size, borderMode=cv2.BORDER_REPLICATE)
    mixed = cv2.addWeighted(below, 1 - GHOST_SHARE, laid, GHOST_SHARE, 0)
    return np.asarray(mixed, dtype=np.uint8)


def _footing(sight: Sight) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
    """Between the ankles, (2,) px."""
    stance = sight.stance
    return np.asarray(sight.pose.pixels[[stance.lead.ankle, stance.trail.ankle]].mean(axis=0))


def about_golfer(picture: Picture, film: SwingFilm, mirrored: bool, share: float) -> Picture:
    """A part of the picture so wide, the golfer's feet at address in its middle."""
    wide = picture.shape[1]
    foot = float(_footing(film.address_sight)[0])
    middle = wide - 1 - foot if mirrored else foot
    keep = round(share * wide)
    left = round(min(max(middle - keep / 2, 0), wide - keep))
    return np.ascontiguousarray(picture[:, left : left + keep])
