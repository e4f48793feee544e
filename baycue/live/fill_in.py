"""Glimpses for the frames that the pose model skipped, so that the club is seen in every one.

The pose model looks at some 30 to 50 frames a second on two cores, and a camera may give more.
The shaft turns by ten degrees and more between frames, so each frame's own picture is used; the
body moves slowly enough for its landmarks to be carried on by a cubic between the three poses
before and the one after.  Measured on two samples (60 and 120 frames a second), every second and
every third frame posed: P6 moved by 0.6 ms at most, impact by 1.5 ms, the knee by 4 mm, the head
by 6 mm.  A second pose model beside the first was tried and brings nothing: each takes a whole
core, and so do the others.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np

from baycue.glimpse import Glimpse
from baycue.live.still import Still
from baycue.pose.pose import FloatArray, Pose
from baycue.swing.strike_due import CARRIED_NS

Mend = Callable[[Sequence[Pose]], Sequence[Pose]]

_WIDEST_GAP_NS = 150_000_000
"""Between poses further apart nothing is carried on; a downswing takes 250 ms."""


def filled_in(
    posed: Sequence[Glimpse], stills: Sequence[Still], since_ns: int, mend: Mend = tuple
) -> tuple[Glimpse, ...]:
    """``posed`` from ``since_ns`` on, with the stills between them as glimpses.

    Both in order of time.  Stills before the first pose, long after the last, within gaps of more
    than 0.15 s and of another size than the poses' are left out.  ``mend`` puts the poses right
    that others are carried on from: halfway between a right and a wrong hand there is nothing
    left to put right.
    """
    seen = [g for g in posed if g.stamp_ns >= since_ns]
    golfer = [g for g in seen if g.pose]
    missing = [s for s in stills if len(golfer) > 1 and _bridged(s, golfer)]
    if not missing:
        return tuple(seen)
    poses = _carried_on(mend([g.pose for g in golfer if g.pose]), missing)
    like = golfer[-1]
    made = [
        replace(like, frame_index=s.index, stamp_ns=s.stamp_ns, pose=p, grey=s.grey)
        for s, p in zip(missing, poses, strict=True)
        if s.grey.shape == like.grey.shape
    ]
    return tuple(sorted((*seen, *made), key=lambda g: g.stamp_ns))


def _bridged(still: Still, golfer: Sequence[Glimpse]) -> bool:
    """Whether it lies between two poses that are close to each other, or just after all."""
    if still.stamp_ns > golfer[-1].stamp_ns:
        return still.stamp_ns <= golfer[-1].stamp_ns + CARRIED_NS
    after = next((k for k, g in enumerate(golfer) if g.stamp_ns >= still.stamp_ns), 0)
    if after == 0 or golfer[after].stamp_ns == still.stamp_ns:
        return False
    return golfer[after].stamp_ns - golfer[after - 1].stamp_ns <= _WIDEST_GAP_NS


def _carried_on(poses: Sequence[Pose], stills: Sequence[Still]) -> list[Pose]:
    start_ns = poses[0].stamp_ns
    at_s = (np.array([p.stamp_ns for p in poses]) - start_ns) / 1e9
    wanted_s = (np.array([s.stamp_ns for s in stills]) - start_ns) / 1e9
    pixels = _cubic(at_s, np.array([p.pixels for p in poses]), wanted_s)
    world_m = _cubic(at_s, np.array([p.world_m for p in poses]), wanted_s)
    before = np.searchsorted(at_s, wanted_s) - 1
    return [
        Pose(still.index, still.stamp_ns, pixels[k], world_m[k], poses[before[k]].visibility)
        for k, still in enumerate(stills)
    ]


def _cubic(at_s: FloatArray, values: FloatArray, wanted_s: FloatArray) -> FloatArray:
    """Lagrange's cubic through the three poses before and the one after, or the first four.

    Through no later one, so that what lies between poses is the same whatever comes later.  After
    the last pose a parabola through the last three.
    """
    after = int(np.searchsorted(wanted_s, at_s[-1], side="right"))
    between, beyond = (
        _lagrange(at_s, values, some_s, count)
        for some_s, count in ((wanted_s[:after], 4), (wanted_s[after:], 3))
    )
    return np.concatenate([between, beyond])


def _lagrange(at_s: FloatArray, values: FloatArray, wanted_s: FloatArray, most: int) -> FloatArray:
    """The polynomial through ``most`` values about each moment."""
    count = min(most, len(at_s))
    first = np.clip(np.searchsorted(at_s, wanted_s) - 3, 0, len(at_s) - count)
    found = np.zeros((len(wanted_s), *values.shape[1:]))
    for j in range(count):
        weight = np.ones(len(wanted_s))
        for k in range(count):
            if k != j:
                weight *= (wanted_s - at_s[first + k]) / (at_s[first + j] - at_s[first + k])
        found += weight[:, None, None] * values[first + j]
    return found
