"""Is somebody else in the picture?"""

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from baycue.capture.frame import Frame
from baycue.pose.landmarker import bodies_in
from baycue.pose.pose import Pose
from baycue.pose.presence import plausible

_ROOM_SHARE = 0.05
"""Left around the golfer's landmarks, of the body's height, for what sticks out of them."""

_NARROWEST_STRIP_PX = 64


def count_people(frames: Sequence[Frame]) -> list[int]:
    """How many people are in each frame: none, the golfer, and one more on either side.

    Asked for two bodies in one picture the model overlooks people much smaller than the
    golfer, so the strips left and right of the golfer are searched on their own.  People
    in front of, behind or touching the golfer are not told apart.

    Slow (about three detections a frame): for a few sampled frames.
    """
    golfers = [
        _people(bodies, frame) for bodies, frame in zip(bodies_in(frames, 1), frames, strict=True)
    ]
    strips = [
        (number, strip)
        for number, (found, frame) in enumerate(zip(golfers, frames, strict=True))
        for golfer in found[:1]
        for strip in beside(golfer, frame)
    ]
    counts = [len(found) for found in golfers]
    others = bodies_in([strip for _, strip in strips], 1)
    for (number, strip), bodies in zip(strips, others, strict=True):
        counts[number] += len(_people(bodies, strip))
    return counts


def beside(golfer: Pose, frame: Frame) -> list[Frame]:
    """The parts of the frame left and right of the golfer, where wide enough to hold anyone."""
    low, high = golfer.pixels.min(axis=0), golfer.pixels.max(axis=0)
    room_px = _ROOM_SHARE * (high[1] - low[1])
    left_end = max(round(low[0] - room_px), 0)
    right_start = max(round(high[0] + room_px), 0)
    picture = frame.picture_bgr
    strips = (picture[:, :left_end], picture[:, right_start:])
    return [
        replace(frame, picture_bgr=np.ascontiguousarray(strip))
        for strip in strips
        if strip.shape[1] >= _NARROWEST_STRIP_PX
    ]


def _people(bodies: Sequence[Pose], frame: Frame) -> list[Pose]:
    height_px, width_px = frame.picture_bgr.shape[:2]
    return [body for body in bodies if plausible(body, (width_px, height_px))]
