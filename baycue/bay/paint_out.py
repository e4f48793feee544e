"""Somebody who walks by painted out of the picture that the pose model is shown.

The model now and then puts a leg, the head or the whole body on whoever passes close behind.  The
camera stands still, so what the bay looks like there is known from the seconds before: the median
of a few small pictures, the golfer's own place left out.  What is new beside the golfer is
replaced by that.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.bay.golfer_place import Mask, about, golfer_place
from baycue.bay.newcomer import golfer_then, passer_in
from baycue.capture.frame import Picture
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT
from baycue.swing.hands import hand_sample

_HALVINGS = 2
_SHRINK = 2**_HALVINGS
_SAMPLES, _EVERY_NS, _FEWEST = 13, 150_000_000, 5
"""Who walks covers a place for under a second; the median of two seconds is the bay."""
_SURE_SHARE = 0.5
_NEW_GREY, _ALIKE_GREY = 18, 18
_REMEMBERED_NS = 400_000_000
_SWINGING_PER_S = 2.5
"""Body heights a second of hands that come down."""
_STEP_BODIES, _STEPPED_NS = 0.12, 1_000_000_000
"""Who has lately moved both feet walks about, and their own limbs would be painted out; on real
footage of a man who did, that drew his legs wrong.  A leg put on a passer is one foot alone."""


@dataclass(frozen=True, slots=True, eq=False)
class _Sample:
    """A small picture (h, w, 3), the golfer's place filled with the bay as it was known then.

    ``known``: (h, w), 1 where the bay itself was seen, then or before.
    """

    stamp_ns: int
    picture: Picture
    known: Mask


@dataclass(frozen=True, slots=True, eq=False)
class StillBay:
    """The bay with nobody in it, (h, w, 3); ``sure``: (h, w), 1 where that is well known."""

    picture: Picture
    sure: Mask


@dataclass(frozen=True, slots=True, eq=False)
class PaintOut:
    """What is known of the bay, and the golfer's poses of the last 0.4 s; a pure fold.

    ``stepped_ns``: when each foot, left and right, was last seen to move.
    """

    samples: tuple[_Sample, ...] = ()
    bay: StillBay | None = None
    poses: tuple[Pose, ...] = ()
    stepped_ns: tuple[int | None, int | None] = (None, None)

    def shown(self, stamp_ns: int, picture: Picture) -> Picture:
        """The picture (H, W, 3) without whoever is new beside the golfer; itself if nobody is."""
        if self._walks_about(stamp_ns):
            return picture
        small = shrunk(picture)
        if self.bay is None or not self.poses or small.shape != self.bay.picture.shape:
            return picture
        new = what_is_new(small, self.bay)
        golfer = golfer_then(self.poses, stamp_ns, _SHRINK)
        if cv2.countNonZero(new) < golfer.least_px2:
            return picture
        open_to = self.bay.sure & (1 - golfer_place(self.poses, stamp_ns, small.shape, _SHRINK))
        passer = passer_in(new & open_to, open_to, golfer)
        return picture if passer is None else _painted(picture, self.bay.picture, passer)

    def after(self, stamp_ns: int, picture: Picture, golfer: Pose | None) -> "PaintOut":
        """One frame on, as filmed; ``golfer``: the plausible pose in it, if there is one."""
        lately = [p for p in self.poses if p.stamp_ns >= stamp_ns - _REMEMBERED_NS]
        poses = (*lately, golfer) if golfer else tuple(lately)
        seen = replace(self, poses=poses, stepped_ns=_stepped(self.stepped_ns, poses))
        due = not self.samples or stamp_ns >= self.samples[-1].stamp_ns + _EVERY_NS
        # Of a swing a picture shows a smear, and whoever is to tell the strike has no time for it.
        wanted = golfer is not None and due and not _is_swinging(poses)
        return seen._sampled(stamp_ns, shrunk(picture)) if wanted else seen

    def _sampled(self, stamp_ns: int, small: Picture) -> "PaintOut":
        """With one more sample; anew if the picture's size is another."""
        before = self.samples[-1:]
        if before and before[0].picture.shape != small.shape:
            return PaintOut(poses=self.poses, stepped_ns=self.stepped_ns)
        place = about(golfer_place(self.poses, stamp_ns, small.shape, _SHRINK), self.poses, _SHRINK)
        known = 1 - place
        if before and self.bay is not None:
            cv2.copyTo(self.bay.picture, place, small)
            known |= before[0].known
        samples = (*self.samples, _Sample(stamp_ns, small, known))[-_SAMPLES:]
        return replace(self, samples=samples, bay=still_bay(samples))

    def _walks_about(self, stamp_ns: int) -> bool:
        return all(
            stepped_ns is not None and stamp_ns - stepped_ns <= _STEPPED_NS
            for stepped_ns in self.stepped_ns
        )


def _is_swinging(poses: Sequence[Pose]) -> bool:
    """Whether the hands go fast from the last look but one to the last."""
    if len(poses) < 2:
        return False
    before, last = (hand_sample(pose) for pose in poses[-2:])
    way_px = float(np.linalg.norm(last.hands_px - before.hands_px))
    return way_px > _SWINGING_PER_S * last.body_px * (last.stamp_ns - before.stamp_ns) * 1e-9


def _stepped(
    before_ns: tuple[int | None, int | None], poses: Sequence[Pose]
) -> tuple[int | None, int | None]:
    """When each foot last moved, the newest of ``poses`` looked at."""
    if not poses:
        return before_ns
    newest = poses[-1]
    least_px = _STEP_BODIES * hand_sample(newest).body_px

    def moved(ankle: Landmark) -> bool:
        ways = (newest.pixel(ankle) - pose.pixel(ankle) for pose in poses)
        return max(float(np.linalg.norm(way)) for way in ways) > least_px

    left_ns, right_ns = before_ns
    return (
        newest.stamp_ns if moved(LEFT.ankle) else left_ns,
        newest.stamp_ns if moved(RIGHT.ankle) else right_ns,
    )


def shrunk(picture: Picture) -> Picture:
    """A quarter as wide and high; twice by half, which is quicker than once by a quarter."""
    for _ in range(_HALVINGS):
        size = (picture.shape[1] // 2, picture.shape[0] // 2)
        picture = np.asarray(cv2.resize(picture, size, interpolation=cv2.INTER_AREA), np.uint8)
    return picture


def still_bay(samples: Sequence[_Sample]) -> StillBay:
    """The samples' median; sure where enough of them know it and are alike."""
    bay = median([s.picture for s in samples])
    known = np.sum([s.known for s in samples], axis=0)
    alike = np.sum([_difference(s.picture, bay) <= _ALIKE_GREY for s in samples], axis=0)
    enough = max(_SURE_SHARE * len(samples), _FEWEST - 1)
    return StillBay(bay, ((known > enough) & (alike > enough)).astype(np.uint8))


def median(pictures: Sequence[Picture]) -> Picture:
    """Per pixel; by a sorting network (odd-even transposition), many times quicker than a sort."""
    sorting = list(pictures)
    for start in range(len(sorting)):
        for k in range(start % 2, len(sorting) - 1, 2):
            low, high = cv2.min(sorting[k], sorting[k + 1]), cv2.max(sorting[k], sorting[k + 1])
            sorting[k], sorting[k + 1] = np.asarray(low), np.asarray(high)
    return sorting[len(sorting) // 2]


def what_is_new(small: Picture, bay: StillBay) -> Mask:
    """(h, w), 1 where the picture is not as the still bay is known to be."""
    return (_difference(small, bay.picture) > _NEW_GREY).astype(np.uint8) & bay.sure


def _painted(picture: Picture, bay: Picture, passer: Mask) -> Picture:
    size = picture.shape[1::-1]
    mask = cv2.resize(passer, size, interpolation=cv2.INTER_NEAREST)
    shown = picture.copy()
    cv2.copyTo(cv2.resize(bay, size, interpolation=cv2.INTER_LINEAR), mask, shown)
    return shown


def _difference(one: Picture, other: Picture) -> NDArray[np.uint8]:
    """The largest of the three channels' differences, (h, w)."""
    blue, green, red = cv2.split(cv2.absdiff(one, other))
    return np.asarray(cv2.max(cv2.max(blue, green), red))
