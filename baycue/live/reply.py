"""What the scoring process answers, packed so that it is quickly sent.

A swing's poses are some three hundred small arrays, of which each costs more than its content.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from baycue.live.desk import Scoring
from baycue.pose.pose import FloatArray, Pose
from baycue.spine import FinishedSwing, ScoredSwing

Reply = Scoring | FinishedSwing


@dataclass(frozen=True, slots=True, eq=False)
class StackedPoses:
    """Poses in one array each: (n,), (n,), (n, 33, 2), (n, 33, 3), (n, 33)."""

    frame_indices: tuple[int, ...]
    stamps_ns: tuple[int, ...]
    pixels: FloatArray
    world_m: FloatArray
    visibility: FloatArray

    def poses(self) -> tuple[Pose, ...]:
        """One by one again."""
        each = (self.frame_indices, self.stamps_ns, self.pixels, self.world_m, self.visibility)
        return tuple(Pose(*parts) for parts in zip(*each, strict=True))


@dataclass(frozen=True, slots=True)
class Packed:
    """A reply without its poses, and the poses."""

    reply: Reply
    poses: StackedPoses | None

    def unpacked(self) -> Reply:
        """The reply as it was."""
        swing = _swing_of(self.reply)
        if swing is None or self.poses is None:
            return self.reply
        return _with(self.reply, _posed(swing, self.poses.poses()))


def packed(reply: Reply) -> Packed:
    """A reply to be sent."""
    swing = _swing_of(reply)
    if swing is None or not swing.evidence.poses:
        return Packed(reply, None)
    return Packed(_with(reply, _posed(swing, ())), _stacked(swing.evidence.poses))


def _stacked(poses: Sequence[Pose]) -> StackedPoses:
    return StackedPoses(
        tuple(p.frame_index for p in poses),
        tuple(p.stamp_ns for p in poses),
        np.stack([p.pixels for p in poses]),
        np.stack([p.world_m for p in poses]),
        np.stack([p.visibility for p in poses]),
    )


def _swing_of(reply: Reply) -> ScoredSwing | None:
    swing = reply.scored if isinstance(reply, FinishedSwing) else reply.swing
    return swing if isinstance(swing, ScoredSwing) else None


def _with(reply: Reply, swing: ScoredSwing) -> Reply:
    if isinstance(reply, FinishedSwing):
        return replace(reply, scored=swing)
    return replace(reply, swing=swing)


def _posed(swing: ScoredSwing, poses: tuple[Pose, ...]) -> ScoredSwing:
    return replace(swing, evidence=replace(swing.evidence, poses=poses))
