"""Where in the next picture the golfer can be, from the last poses."""

from collections.abc import Sequence

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Side
from baycue.swing.hands import hand_sample

Mask = NDArray[np.uint8]

_LEG_BODIES, _FOOT_BODIES, _TRUNK_BODIES, _ARM_BODIES = 0.20, 0.14, 0.22, 0.17
"""Widths, in lengths from ankle to hip to shoulder; tight where a passer's leg or head may be."""
_HEAD_BODIES, _CROWN_BODIES, _HAND_BODIES = 0.13, 0.04, 0.13
_SAME_HEAD_BODIES = 0.10
_ABOUT_BODIES = 0.05
_AHEAD_MOST = 1.5
_LATELY_NS = 150_000_000
_SLOW = [*range(13), *range(23, 33)]
"""Head, shoulders, hips and legs."""
_FACE = [Landmark.LEFT_EAR, Landmark.RIGHT_EAR, Landmark.NOSE]
_FINGERS = {LEFT: Landmark.LEFT_INDEX, RIGHT: Landmark.RIGHT_INDEX}


def golfer_place(poses: Sequence[Pose], stamp_ns: int, shape: tuple[int, ...], shrink: int) -> Mask:
    """1 where the golfer of ``poses`` (at least one, in order of time) can be at ``stamp_ns``.

    ``shape``: (h, w) and more of the mask, ``shrink`` times smaller than the poses' picture.
    The club is left out.
    """
    places, last = expected_px(poses, stamp_ns) / shrink, poses[-1].pixels / shrink
    body_px = hand_sample(poses[-1]).body_px / shrink
    mask = np.zeros(shape[:2], np.uint8)
    for side in (LEFT, RIGHT):
        _line(mask, places[[side.hip, side.knee, side.ankle]], _LEG_BODIES * body_px)
        _line(mask, places[[side.ankle, side.heel, side.toe, side.ankle]], _FOOT_BODIES * body_px)
        _arm(mask, side, np.stack([places, last]), body_px)
    trunk = places[[LEFT.shoulder, RIGHT.shoulder, RIGHT.hip, LEFT.hip]]
    _hull(mask, trunk, _TRUNK_BODIES * body_px)
    for head in _heads(places, last, body_px):
        _disc(mask, head, _HEAD_BODIES * body_px)
    return mask


def about(place: Mask, poses: Sequence[Pose], shrink: int) -> Mask:
    """A golfer's place and a margin that nothing of the golfer sticks out of."""
    reach_px = int(_ABOUT_BODIES * hand_sample(poses[-1]).body_px / shrink)
    return np.asarray(cv2.dilate(place, np.ones((2 * reach_px + 1,) * 2, np.uint8)))


def expected_px(poses: Sequence[Pose], stamp_ns: int) -> FloatArray:
    """(33, 2) px: the arms go straight on, all else is where it mostly was of late."""
    last = poses[-1]
    places = last.pixels.copy()
    if len(poses) > 1:
        before = poses[-2]
        ahead = (stamp_ns - last.stamp_ns) / (last.stamp_ns - before.stamp_ns)
        places += min(ahead, _AHEAD_MOST) * (places - before.pixels)
    lately = [p.pixels[_SLOW] for p in poses if p.stamp_ns >= last.stamp_ns - _LATELY_NS]
    places[_SLOW] = np.median(lately, axis=0)
    return places


def _heads(places: FloatArray, last: FloatArray, body_px: float) -> list[FloatArray]:
    """The head's middle, a little above ears and nose: of late, and last if it is the same head."""
    up = np.array([0.0, -_CROWN_BODIES * body_px])
    lately, now = (p[_FACE].mean(axis=0) + up for p in (places, last))
    same = np.linalg.norm(now - lately) <= _SAME_HEAD_BODIES * body_px
    return [lately, now] if same else [lately]


def _arm(mask: Mask, side: Side, places: FloatArray, body_px: float) -> None:
    """Where the arm was and where it will be, (2, 33, 2), and all between."""
    arm = places[:, [side.shoulder, side.elbow, side.wrist, _FINGERS[side]]]
    _hull(mask, arm.reshape(-1, 2), _ARM_BODIES * body_px)
    for hand in arm[:, -1]:
        _disc(mask, hand, _HAND_BODIES * body_px)


def _hull(mask: Mask, points: FloatArray, width_px: float) -> None:
    hull = cv2.convexHull(np.round(points).astype(np.int32))
    cv2.fillConvexPoly(mask, hull, 1)
    cv2.polylines(mask, [hull], True, 1, max(int(width_px), 1))


def _line(mask: Mask, points: FloatArray, width_px: float) -> None:
    cv2.polylines(mask, [np.round(points).astype(np.int32)], False, 1, max(int(width_px), 1))


def _disc(mask: Mask, middle: FloatArray, radius_px: float) -> None:
    cv2.circle(mask, (int(middle[0]), int(middle[1])), int(radius_px), 1, cv2.FILLED)
