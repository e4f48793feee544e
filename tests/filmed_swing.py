"""The drawn swing as frames, and a pose estimator that already knows the poses."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field, replace

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.capture.frame import Frame
from baycue.glimpse import Glimpse, glimpses
from baycue.pose.pose import Pose
from tests.canned_swing import canned_swing
from tests.drawn_swing import Drawing, drawn
from tests.stick_golfer import (
    FloatArray,
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
    """How the swing is filmed.

    ``mirror``: the picture is turned left for right.  ``lean_deg``: the camera leans to a
    side, which turns the picture about its middle.
    """

    golfer: StickGolfer = field(default_factory=StickGolfer)
    camera: Pinhole = field(default_factory=Pinhole)
    fps: float = 30.0
    shutter_s: float = 1 / 250
    mirror: bool = False
    phase: float = 0.4
    lean_deg: float = 0.0
    with_posts: bool = True


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
    seen = mirrored(noisy, film.camera.width_px) if film.mirror else noisy
    turn = turning(film)
    return tuple(replace(p, pixels=p.pixels @ turn[:, :2].T + turn[:, 2]) for p in seen)


def turning(film: Film) -> FloatArray:
    """The (2, 3) turn of the picture about its middle that a leaning camera makes."""
    middle = (film.camera.width_px / 2, film.camera.height_px / 2)
    return np.asarray(cv2.getRotationMatrix2D(middle, film.lean_deg, 1.0), dtype=np.float64)


def frames_of(film: Film) -> Iterator[Frame]:
    """The drawn frames, one by one."""
    times = frame_times_s(film.fps, FROM_S, TO_S, film.phase)
    true = poses_of(times, canned_swing(), film.golfer, film.camera)
    for k, (time_s, pose) in enumerate(zip(times, true, strict=True)):
        how = Drawing(film.shutter_s, with_posts=film.with_posts, seed=k)
        (grey,) = drawn(np.array([time_s]), (pose,), how)
        seen = _leaning(grey[:, ::-1] if film.mirror else grey, film)
        yield Frame(k, pose.stamp_ns, np.ascontiguousarray(np.repeat(seen[:, :, None], 3, axis=2)))


def _leaning(picture: NDArray[np.uint8], film: Film) -> NDArray[np.uint8]:
    if not film.lean_deg:
        return picture
    size = (film.camera.width_px, film.camera.height_px)
    turned = cv2.warpAffine(picture, turning(film), size, borderMode=cv2.BORDER_REFLECT)
    return np.asarray(turned, dtype=np.uint8)


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
