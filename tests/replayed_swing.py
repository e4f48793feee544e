"""The canned swing with a picture for each of its poses."""

from dataclasses import replace
from functools import cache

import numpy as np

from baycue.capture.shot import Shot
from baycue.pose.pose import Pose
from baycue.pose.sides import Stance
from baycue.replay.film import SwingFilm
from tests.canned_readings import LEFT_HANDER
from tests.scored_swing import scored_swing

GREY = 90


@cache
def swing_film(number: int = 1) -> SwingFilm:
    """Grey pictures, each with its number as a white bar of that height at the left edge."""
    scored = scored_swing(number)
    known = scored.evidence.camera
    shots = []
    for k, pose in enumerate(scored.evidence.poses):
        picture = np.full((known.height_px, known.width_px, 3), GREY, dtype=np.uint8)
        picture[: 4 * (k + 1), :24] = 255
        shots.append(Shot(k, pose.stamp_ns, picture))
    return SwingFilm(tuple(shots), scored)


@cache
def left_handers_film() -> SwingFilm:
    """The same swing by a left-hander: every picture and pose mirrored."""
    film = swing_film()
    width = film.scored.evidence.camera.width_px
    evidence = replace(
        film.scored.evidence,
        stance=LEFT_HANDER,
        poses=tuple(_mirrored(p, width, LEFT_HANDER) for p in film.scored.evidence.poses),
    )
    shots = tuple(
        replace(s, content=np.ascontiguousarray(film.picture(k)[:, ::-1]))
        for k, s in enumerate(film.shots)
    )
    return SwingFilm(shots, replace(film.scored, evidence=evidence))


def _mirrored(pose: Pose, width_px: int, stance: Stance) -> Pose:
    """Left and right landmarks change places, as a mirror has it."""
    order = [0, 4, 5, 6, 1, 2, 3, 8, 7, 10, 9]
    order += [k + 1 if k % 2 else k - 1 for k in range(11, 33)]
    pixels = pose.pixels[order] * [-1, 1] + [width_px - 1, 0]
    return replace(pose, pixels=pixels)
