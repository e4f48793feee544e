"""The drawn swing as frames, and a pose estimator that already knows the poses."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

import numpy as np

from baycue.capture.frame import Frame
from baycue.pose.pose import Pose
from baycue.spine import Glimpse, glimpses
from tests.canned_swing import canned_swing
from tests.drawn_swing import Drawing, drawn
from tests.stick_golfer import (
    Pinhole,
    StickGolfer,
    frame_times_s,
    jittered,
    mirrored,
    poses_of,
)

FROM_S, TO_S = -1.75, 1.15
LANDMARK_SIGMA_PX = 1.0


@dataclass(frozen=True, slots=True)
class Film:
    """How the swing is filmed; ``mirror``: the picture is turned left for right."""

    golfer: StickGolfer = field(default_factory=StickGolfer)
    camera: Pinhole = field(default_factory=Pinhole)
    fps: float = 30.0
    shutter_s: float = 1 / 250
    mirror: bool = False
    phase: float = 0.4


@dataclass(frozen=True, slots=True)
class KnownPoses:
    """A pose estimator that looks nothing up but the frame's stamp."""

    poses: dict[int, Pose]

    def estimate(self, frame: Frame) -> Pose | None:
        """The pose of that moment, or None."""
        return self.poses.get(frame.stamp_ns)

    def close(self) -> None:
        """There is nothing to release."""


def poses_in(film: Film) -> tuple[Pose, ...]:
    """What a good pose model would see: the true joints and a pixel of noise."""
    times = frame_times_s(film.fps, FROM_S, TO_S, film.phase)
    true = poses_of(times, canned_swing(), film.golfer, film.camera)
    noisy = jittered(true, LANDMARK_SIGMA_PX, np.random.default_rng(17))
    return mirrored(noisy, film.camera.width_px) if film.mirror else noisy


def frames_of(film: Film) -> Iterator[Frame]:
    """The drawn frames, one by one."""
    times = frame_times_s(film.fps, FROM_S, TO_S, film.phase)
    true = poses_of(times, canned_swing(), film.golfer, film.camera)
    for k, (time_s, pose) in enumerate(zip(times, true, strict=True)):
        (grey,) = drawn(np.array([time_s]), (pose,), Drawing(film.shutter_s, seed=k))
        seen = grey[:, ::-1] if film.mirror else grey
        yield Frame(k, pose.stamp_ns, np.ascontiguousarray(np.repeat(seen[:, :, None], 3, axis=2)))


def glimpsed(film: Film) -> tuple[Glimpse, ...]:
    """The film as the spine remembers it."""
    known = KnownPoses({p.stamp_ns: p for p in poses_in(film)})
    return tuple(glimpses(frames_of(film), known))


def later(seen: Iterable[Glimpse], by_ns: int) -> tuple[Glimpse, ...]:
    """The same glimpses at a later time."""
    return tuple(
        replace(
            g,
            stamp_ns=g.stamp_ns + by_ns,
            pose=replace(g.pose, stamp_ns=g.pose.stamp_ns + by_ns) if g.pose else None,
        )
        for g in seen
    )
