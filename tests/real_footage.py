"""Footage of real people, none of them golfers, as two general-purpose projects publish it.

``.ci/fetch-footage`` puts it into ``tests/footage``; it is never committed.

- ``park``: a man doing jumping jacks and a back-lit flip on a roof, a woman walking by on the
  grass.  Demonstration clip of the PyPI package sports2d 0.8.34.
- ``lab_1`` to ``lab_4``: a man balancing on a treadmill, face made unrecognisable, seen by four
  calibrated cameras at once.  Demonstration data of the PyPI package pose2sim 0.10.49.

Both packages: David Pagnon and contributors, copyright 2022 perfanalytics, BSD-3-Clause by the
LICENSE in the wheel.  No licence of its own is stated for the clips.
"""

import xml.etree.ElementTree as ET
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cache
from itertools import product
from pathlib import Path

import cv2
import numpy as np
import pytest
from numpy.typing import NDArray

from baycue.capture.frame import Frame
from baycue.capture.recording import RecordingSource
from baycue.glimpse import Glimpse, glimpses
from baycue.plan.plan import Plan
from baycue.pose.landmarker import MediaPipePose
from baycue.pose.pose import Landmark, Pose
from baycue.spine import swing_news

FloatArray = NDArray[np.float64]

FOLDER = Path(__file__).parent / "footage"
LAB = ("lab_1.mp4", "lab_2.mp4", "lab_3.mp4", "lab_4.mp4")

SWAPPED = [0, 4, 5, 6, 1, 2, 3, *(k + 1 if k % 2 else k - 1 for k in range(7, 33))]
"""For each landmark the one on the body's other side."""

_TRUNK_AND_LEGS = [11, 12, 23, 24, 25, 26, 27, 28]


def footage(name: str) -> Path:
    """A file of the footage; skips the test where it was not fetched."""
    path = FOLDER / name
    if not path.exists():
        pytest.skip(f"no {name}: run .ci/fetch-footage, which needs PyPI")
    return path


@dataclass(frozen=True, slots=True)
class Watched:
    """A whole clip: what the model saw, whether a golfer was made of it, and the swings told."""

    poses: tuple[Pose | None, ...]
    golfer: tuple[bool, ...]
    swings: int

    @property
    def of_golfer(self) -> list[Pose]:
        """The poses that passed as a person."""
        return [p for p, there in zip(self.poses, self.golfer, strict=True) if p and there]


class _Kept:
    """The pose model, remembering what it said."""

    def __init__(self, inner: MediaPipePose) -> None:
        self.inner = inner
        self.poses: list[Pose | None] = []

    def estimate(self, frame: Frame) -> Pose | None:
        self.poses.append(self.inner.estimate(frame))
        return self.poses[-1]

    def close(self) -> None:
        self.inner.close()


@cache
def watched(name: str) -> Watched:
    """A clip through the spine, from decoding to swings."""
    golfer: list[bool] = []

    def noting(seen: Iterable[Glimpse]) -> Iterator[Glimpse]:
        for glimpse in seen:
            golfer.append(glimpse.pose is not None)
            yield glimpse

    with RecordingSource(footage(name)) as source, MediaPipePose() as model:
        kept = _Kept(model)
        told = list(swing_news(noting(glimpses(source, kept)), _PLAN))
    return Watched(tuple(kept.poses), tuple(golfer), len(told))


_PLAN = Plan.model_validate(
    {
        "student": "somebody",
        "handedness": "right",
        "stature": "1.75 m",
        "view": "face-on",
        "camera": {"mirrored": False},
        "targets": [{"measure": "tempo", "at_least": "2"}],
    }
)


@dataclass(frozen=True, slots=True, eq=False)
class LabCamera:
    """A calibrated camera: ``matrix`` (3, 3), ``lens`` (4,) distortion, world to camera."""

    matrix: FloatArray
    lens: FloatArray
    turn: FloatArray
    shift_m: FloatArray

    def flat(self, pixels: FloatArray) -> FloatArray:
        """(N, 2) sideways and downward over forward, the lens's distortion taken out."""
        undone = cv2.undistortPoints(pixels.reshape(-1, 1, 2), self.matrix, self.lens)
        return np.asarray(undone, np.float64).reshape(-1, 2)

    def before(self, points_m: FloatArray) -> FloatArray:
        """World (N, 3) points from this camera: right, down, forward, metres."""
        return np.asarray(points_m @ self.turn.T + self.shift_m)


def lab_cameras() -> tuple[LabCamera, ...]:
    """The calibration that comes with the clips (a Qualisys file: millimetres, 1/64 px)."""
    root = ET.parse(footage("lab_cameras.xml")).getroot()
    return tuple(_camera(element) for element in root.iter("camera"))


def _camera(element: ET.Element) -> LabCamera:
    place, inside = _numbers(element, "transform"), _numbers(element, "intrinsic")
    rows = np.array([[place[f"r{a}{b}"] for b in (1, 2, 3)] for a in (1, 2, 3)])
    turn = np.diag([1.0, -1.0, -1.0]) @ rows  # theirs looks backward, with y up
    middle = inside["centerPointU"] / 64, inside["centerPointV"] / 64
    focal = inside["focalLengthU"] / 64, inside["focalLengthV"] / 64
    matrix = np.array([[focal[0], 0, middle[0]], [0, focal[1], middle[1]], [0, 0, 1]])
    lens = ("radialDistortion1", "radialDistortion2")
    bent = [*(inside[k] for k in lens), *(inside[f"tangentalDistortion{n}"] for n in (1, 2))]
    position_m = np.array([place[axis] for axis in "xyz"]) / 1000
    return LabCamera(matrix, np.array(bent), turn, -turn @ position_m)


def _numbers(element: ET.Element, name: str) -> dict[str, float]:
    part = element.find(name)
    assert part is not None, name
    return {key: float(value) for key, value in part.attrib.items()}


def met(cameras: tuple[LabCamera, ...], seen: FloatArray) -> FloatArray:
    """(N, 3) where the rays of (cameras, N, 2) flat points meet, by least squares."""
    points = []
    for rays in seen.transpose(1, 0, 2):
        rows = []
        for camera, (right, down) in zip(cameras, rays, strict=True):
            whole = np.column_stack([camera.turn, camera.shift_m])
            rows += [right * whole[2] - whole[0], down * whole[2] - whole[1]]
        last = np.linalg.svd(np.array(rows))[2][-1]
        points.append(last[:3] / last[3])
    return np.array(points)


def apart(cameras: tuple[LabCamera, ...], seen: FloatArray) -> float:
    """Median distance of flat points from where their rays' meeting point appears."""
    points = met(cameras, seen)
    ahead = np.array([camera.before(points) for camera in cameras])
    return float(np.median(np.linalg.norm(ahead[..., :2] / ahead[..., 2:] - seen, axis=-1)))


def sides_agreed(cameras: tuple[LabCamera, ...], seen: FloatArray) -> FloatArray:
    """(cameras, 33, 2) with left and right exchanged where that makes the views agree."""
    choices = []
    for exchange in product((False, True), repeat=len(cameras) - 1):
        exchanged = [s[SWAPPED] if x else s for s, x in zip(seen, (False, *exchange), strict=True)]
        choices.append(np.array(exchanged))
    return min(choices, key=lambda c: apart(cameras, c[:, _TRUNK_AND_LEGS]))


@cache
def lab_views() -> FloatArray:
    """(frames, 4, 33, 2) flat points from the time on at which all views have the person."""
    cameras, poses = lab_cameras(), [watched(name).poses for name in LAB]
    frames = []
    for at_once in list(zip(*poses, strict=True))[_SETTLED:]:
        assert all(pose is not None for pose in at_once)
        seen = [c.flat(p.pixels) for c, p in zip(cameras, at_once, strict=True) if p]
        frames.append(sides_agreed(cameras, np.array(seen)))
    return np.array(frames)


_SETTLED = 16
"""Frames at 60 a second until a steady body counts as a golfer."""

LEGS = {
    "left": (Landmark.LEFT_HIP, Landmark.LEFT_KNEE, Landmark.LEFT_ANKLE),
    "right": (Landmark.RIGHT_HIP, Landmark.RIGHT_KNEE, Landmark.RIGHT_ANKLE),
}
