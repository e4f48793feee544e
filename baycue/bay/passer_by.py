"""Somebody close behind the golfer: the pose model may have put a head or a leg on them.

Beside the golfer's body and the club the bay stands still; what differs there from how it looked
going back is somebody else.  Who has gone in behind the golfer and not come out yet is beside no
more and yet there, so that it is looked for at the ball and about the top too.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.club.background import GreyPicture, StillBackground
from baycue.club.reading import ShaftReading
from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Side, Stance
from baycue.swing.hands import grip_px

Mask = NDArray[np.uint8]

_LOOKED_AT = 6
_FLICKERS, _LEAST_GREY = 6.0, 14.0
_BESIDE_BODIES, _ABOVE_BODIES = 0.30, 0.08
_LIMB_BODIES, _TRUNK_BODIES, _HEAD_BODIES, _HANDS_BODIES = 0.17, 0.30, 0.13, 0.12
_CLUB_BODIES, _CLUB_DEG = 0.75, 8.0
_SPECK_PX = 5


@dataclass(frozen=True, slots=True, eq=False)
class NewBeside:
    """What is new in a picture beside the golfer's body and arms, the club not yet left out.

    ``index``: which of the pictures.  ``seen``: ``part`` of it, 1 where new.
    """

    index: int
    seen: Mask
    part: tuple[slice, slice]


def looked_at(count: int) -> list[int]:
    """Which of so many pictures are looked at: six, evenly spread."""
    return [int(k) for k in np.linspace(0, count - 1, min(_LOOKED_AT, count)).astype(int)]


def new_beside(
    greys: Sequence[GreyPicture],
    poses: Sequence[Pose],
    background: StillBackground,
    body_px: float,
    shrink: int,
) -> tuple[NewBeside, ...]:
    """What is new beside the golfer, as far as it is known before the club has been found.

    Of the pictures (h, w) of a stretch of the swing with their poses, which are in a picture
    ``shrink`` times as large; ``body_px`` in the pictures' pixels.
    """
    picks = looked_at(len(greys))
    if not picks:
        return ()
    usual = _bodies([poses[k] for k in picks], greys[0].shape, shrink, body_px)
    found = []
    for k in picks:
        around, part = _around(poses[k], greys[0].shape, shrink, body_px)
        new = cv2.absdiff(greys[k][part], background.picture[part])
        changed = (new > max(_FLICKERS * background.flicker, _LEAST_GREY)).view(np.uint8)
        arms = _arms(poses[k], greys[0].shape, shrink, body_px)
        seen = changed & around[part] & (1 - (usual[part] | arms[part]))
        found.append(NewBeside(k, seen, part))
    return tuple(found)


def area_bodies2(
    new: Sequence[NewBeside],
    poses: Sequence[Pose],
    shaft: Sequence[ShaftReading],
    stance: Stance,
    body_px: float,
    shrink: int,
) -> float:
    """How much of what is beside the golfer is new, in squares of ``body_px``.

    ``new``: what ``new_beside`` told of the same pictures; ``shaft``: their readings.  The second
    largest of six, so that one glitch tells nothing.
    """
    areas = []
    for each in new:
        hands = _point(grip_px(poses[each.index]) / shrink)
        club = _club(hands, shaft[each.index], stance, each, body_px)
        seen = each.seen & (1 - club)
        cleared = cv2.morphologyEx(seen, cv2.MORPH_OPEN, np.ones((_SPECK_PX, _SPECK_PX), np.uint8))
        areas.append(float(cleared.sum()) / body_px**2)
    return sorted(areas)[-2] if len(areas) > 1 else sum(areas, start=0.0)


def _around(
    pose: Pose, shape: tuple[int, ...], shrink: int, body_px: float
) -> tuple[Mask, tuple[slice, slice]]:
    """From the head to the knees and a little to both sides; shadows lie lower.

    And the part of the picture beyond which there is nothing of it, a speck's width wider.
    """
    trunk = pose.pixels[[*_trunk(LEFT), *_trunk(RIGHT)]] / shrink
    top = pose.pixel(Landmark.NOSE)[1] / shrink - _ABOVE_BODIES * body_px
    foot = pose.pixels[[LEFT.knee, RIGHT.knee], 1].mean() / shrink
    left, right = trunk[:, 0].min() - _BESIDE_BODIES * body_px, trunk[:, 0].max()
    mask = np.zeros(shape, np.uint8)
    corner, end = (int(left), int(top)), (int(right + _BESIDE_BODIES * body_px), int(foot))
    cv2.rectangle(mask, corner, end, 1, cv2.FILLED)
    columns, rows = (
        slice(min(max(min(ends) - _SPECK_PX, 0), size - 1), max(max(ends) + 1 + _SPECK_PX, 1))
        for ends, size in zip(zip(corner, end, strict=True), shape[1::-1], strict=True)
    )
    return mask, (rows, columns)


def _trunk(side: Side) -> tuple[Landmark, ...]:
    return side.shoulder, side.hip, side.knee


def _bodies(poses: Sequence[Pose], shape: tuple[int, ...], shrink: int, body_px: float) -> Mask:
    """Where heads, trunks and legs are in any of the poses."""
    mask = np.zeros(shape, np.uint8)
    for pose in poses:
        for side in (LEFT, RIGHT):
            legs = (side.hip, side.knee, side.ankle)
            _line(mask, pose.pixels[list(legs)] / shrink, _LIMB_BODIES * body_px)
        trunk = [LEFT.shoulder, RIGHT.shoulder, RIGHT.hip, LEFT.hip, LEFT.shoulder, RIGHT.hip]
        _line(mask, pose.pixels[trunk] / shrink, _TRUNK_BODIES * body_px)
        ears = pose.pixels[[Landmark.LEFT_EAR, Landmark.RIGHT_EAR]].mean(axis=0) / shrink
        cv2.circle(mask, _point(ears), int(_HEAD_BODIES * body_px), 1, cv2.FILLED)
    return mask


def _arms(pose: Pose, shape: tuple[int, ...], shrink: int, body_px: float) -> Mask:
    """Where arms and hands are in one picture."""
    mask = np.zeros(shape, np.uint8)
    for side in (LEFT, RIGHT):
        arm = (side.shoulder, side.elbow, side.wrist)
        _line(mask, pose.pixels[list(arm)] / shrink, _LIMB_BODIES * body_px)
    hands = _point(grip_px(pose) / shrink)
    cv2.circle(mask, hands, int(_HANDS_BODIES * body_px), 1, cv2.FILLED)
    return mask


def _club(
    hands: tuple[int, int],
    reading: ShaftReading,
    stance: Stance,
    new: NewBeside,
    body_px: float,
) -> Mask:
    """Where the club's smear is in the part of a picture that ``new`` is of."""
    mask = np.zeros_like(new.seen)
    rows, columns = new.part
    hands = hands[0] - columns.start, hands[1] - rows.start
    # OpenCV's angles run clockwise from the right; the shaft's from straight down to the target.
    middle = 90.0 - stance.toward_target * reading.angle_deg
    half = reading.sweep_deg / 2 + _CLUB_DEG
    reach = (int(_CLUB_BODIES * body_px),) * 2
    cv2.ellipse(mask, hands, reach, 0.0, middle - half, middle + half, 1, cv2.FILLED)
    return mask


def _line(mask: Mask, points: FloatArray, width_px: float) -> None:
    path = [np.round(points).astype(np.int32)]
    cv2.polylines(mask, path, False, 1, max(int(width_px), 1))


def _point(place: FloatArray) -> tuple[int, int]:
    return int(place[0]), int(place[1])
