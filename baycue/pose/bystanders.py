"""Is somebody else in the picture?"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from baycue.capture.frame import Frame
from baycue.pose.pose import FloatArray, Pose
from baycue.pose.presence import body_height_px, mid_hip, plausible
from baycue.pose.video_model import bodies_in

_ROOM_SHARE = 0.05
"""Left around the golfer's landmarks, of the body's height, for what sticks out of them."""

_NARROWEST_STRIP_PX = 64
_STAYS_WITHIN = 0.15
"""Body heights that somebody who stays may move.  Who walks toward the camera, behind a golfer seen
down the line, moves little in the picture: with 0.3 five of nine synthetic recordings with somebody
walking by were refused, with 0.15 each of them counts in 0.4 of the pictures at the most."""


@dataclass(frozen=True, slots=True)
class Person:
    """Where somebody stands: the (2,) middle of the hips, px, and nose to ankles, px."""

    place_px: FloatArray
    height_px: float

    def stays(self, other: "Person") -> bool:
        """Whether the other can be the same person standing in the same place."""
        return self.moved_px(other) <= _STAYS_WITHIN * self.height_px

    def moved_px(self, other: "Person") -> float:
        """How far apart the two places are."""
        return float(np.linalg.norm(self.place_px - other.place_px))


def people_in(frames: Sequence[Frame]) -> tuple[tuple[Person, ...], ...]:
    """Who is in each frame: nobody, or the one who shows most first, and one more on either side.

    Asked for two bodies in one picture the model overlooks people much smaller than the
    golfer, so the strips left and right of the golfer are searched on their own.  People
    in front of, behind or touching the golfer are not told apart.

    Slow (about three detections a frame): for a few sampled frames.
    """
    whole = [_Strip(number, 0, frame) for number, frame in enumerate(frames)]
    people: list[list[Person]] = [[] for _ in frames]
    first = _bodies(whole)
    beside = [piece for strip, body in first for piece in _beside(body, strip)]
    for strip, body in (*first, *_bodies(beside)):
        people[strip.number].append(_person(body, strip))
    return tuple(tuple(each) for each in people)


def count_people(frames: Sequence[Frame]) -> list[int]:
    """How many people are in each frame; see ``people_in``."""
    return [len(people) for people in people_in(frames)]


def share_with_company(people: Sequence[Sequence[Person]]) -> float:
    """The share of frames, 0 to 1, in which one and the same other person stays in place.

    Who stays in most frames is the golfer: a taller passer-by may be found first.  Somebody who
    walks through is elsewhere in each frame and so counts for little.
    """
    golfer = max(_everybody(people), key=lambda one: _frames_with(one, people), default=None)
    if golfer is None:
        return 0.0
    others = [_without(golfer, each) for each in people]
    stays = (_frames_with(somebody, others) for somebody in _everybody(others))
    return max(stays, default=0) / len(people)


def _everybody(people: Sequence[Sequence[Person]]) -> list[Person]:
    return [somebody for each in people for somebody in each]


def _frames_with(somebody: Person, people: Sequence[Sequence[Person]]) -> int:
    return sum(any(somebody.stays(other) for other in each) for each in people)


def _without(golfer: Person, people: Sequence[Person]) -> list[Person]:
    """All but who is nearest to the golfer's place, if anybody stands there."""
    nearest = min(people, key=golfer.moved_px, default=None)
    return [one for one in people if one is not nearest or not golfer.stays(one)]


@dataclass(frozen=True, slots=True)
class _Strip:
    """A part of frame ``number``, cut from ``left_px`` on."""

    number: int
    left_px: int
    frame: Frame


def _beside(golfer: Pose, whole: _Strip) -> list[_Strip]:
    """The parts left and right of the golfer, where wide enough to hold anyone."""
    low, high = golfer.pixels.min(axis=0), golfer.pixels.max(axis=0)
    room_px = _ROOM_SHARE * (high[1] - low[1])
    picture = whole.frame.picture_bgr
    left_end = max(round(low[0] - room_px), 0)
    right_start = max(round(high[0] + room_px), 0)
    return [
        _Strip(whole.number, left, replace(whole.frame, picture_bgr=np.ascontiguousarray(part)))
        for left, part in ((0, picture[:, :left_end]), (right_start, picture[:, right_start:]))
        if part.shape[1] >= _NARROWEST_STRIP_PX
    ]


def _bodies(strips: Sequence[_Strip]) -> list[tuple[_Strip, Pose]]:
    """The most prominent plausible body of each strip that has one."""
    found = bodies_in([strip.frame for strip in strips], 1)
    return [
        (strip, body)
        for strip, bodies in zip(strips, found, strict=True)
        for body in bodies
        if plausible(body, (strip.frame.picture_bgr.shape[1], strip.frame.picture_bgr.shape[0]))
    ]


def _person(body: Pose, strip: _Strip) -> Person:
    return Person(mid_hip(body) + np.array([strip.left_px, 0.0]), body_height_px(body))
