"""Is a record that reads well also one of a swing?  Damage and malice can keep every type right.

What later steps take for granted is looked at here, once, where a record comes from outside.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

import numpy as np

from baycue.club.reading import ShaftReading
from baycue.keep.place import FILM_SUFFIX, SMALL_FILM_SUFFIX, swing_stem
from baycue.keep.record import Film, SwingRecord
from baycue.measures.evidence import SwingEvidence
from baycue.pose.pose import LANDMARK_COUNT, Pose
from baycue.swing.swing import Checkpoint

_LARGEST = 1e6
"""For pixels, metres and degrees alike; no swing comes near."""
_LONGEST_NS = 2**62
_LARGEST_PICTURE_PX = 1 << 16
_STATURES_M = (0.3, 3.0)
_SHAPES = {"pixels": (LANDMARK_COUNT, 2), "world_m": (LANDMARK_COUNT, 3), "visibility": (33,)}


def refuse_impossible(record: SwingRecord) -> None:
    """ValueError that says what no swing can have."""
    wrong = next(_faults(record), None)
    if wrong is not None:
        raise ValueError(wrong)


def _faults(record: SwingRecord) -> Iterator[str]:
    if not 1 <= record.number <= _LARGEST:
        yield f"number: {record.number} is no swing's"
    if record.film is not None:
        yield from _of_film(record.film, record.number)
    if record.scored is not None:
        yield from _of_evidence(record.scored.evidence)
    later = record.later
    yield from _of_checkpoints(later.checkpoints)
    yield from _of_poses(later.poses)
    yield from _of_shaft(later.shaft)


def _of_film(film: Film, number: int) -> Iterator[str]:
    """A film lies beside its sidecar, or it would be looked for, and deleted, elsewhere."""
    belongs = swing_stem(number) + FILM_SUFFIX
    if film.file not in (belongs, swing_stem(number) + SMALL_FILM_SUFFIX):
        yield f'film.file: "{film.file:.60}" is not the film of this swing, {belongs}'
    if not film.stamps_ns or not _in_order(film.stamps_ns):
        yield "film.stamps_ns: are not in order of time"


def _of_evidence(evidence: SwingEvidence) -> Iterator[str]:
    camera = evidence.camera
    if not all(1 <= side <= _LARGEST_PICTURE_PX for side in (camera.width_px, camera.height_px)):
        yield f"camera: a picture of {camera.width_px} x {camera.height_px} pixels"
    if not 1 <= camera.horizontal_fov_deg <= 179 or not _are_small((camera.lens_bow,)):
        yield f"camera: a field of view of {camera.horizontal_fov_deg:g} degrees"
    if not _STATURES_M[0] <= evidence.stature_m <= _STATURES_M[1]:
        yield f"stature_m: {evidence.stature_m:g} m is no golfer's"
    if not _are_small((evidence.level.slant_deg, evidence.level.sigma_deg)):
        yield "level: no camera leans so"
    if not evidence.poses:
        yield "poses: there are none"
    yield from _of_checkpoints(evidence.swing.checkpoints)
    yield from _of_poses(evidence.poses)
    yield from _of_shaft(evidence.shaft)


def _of_checkpoints(checkpoints: Sequence[Checkpoint]) -> Iterator[str]:
    if len({c.name for c in checkpoints}) < len(checkpoints):
        yield "checkpoints: one comes twice"
    if not all(abs(c.time_ns) < _LONGEST_NS and 0 <= c.sigma_ns < _LONGEST_NS for c in checkpoints):
        yield "checkpoints: one is at no time"


def _of_poses(poses: Sequence[Pose]) -> Iterator[str]:
    if not _in_order([p.stamp_ns for p in poses]):
        yield "poses: are not in order of time"
    for pose in poses:
        for name, shape in _SHAPES.items():
            array = getattr(pose, name)
            if array.shape != shape or not np.all(np.abs(array) <= _LARGEST):
                yield f"poses: {name} are no landmarks"


def _of_shaft(shaft: Sequence[ShaftReading]) -> Iterator[str]:
    if not _in_order([r.stamp_ns for r in shaft]):
        yield "shaft: is not in order of time"
    if not all(_are_small((r.angle_deg, r.sigma_deg, r.sweep_deg)) for r in shaft):
        yield "shaft: no shaft points there"


def _in_order(stamps_ns: Sequence[int]) -> bool:
    return all(abs(ns) < _LONGEST_NS for ns in stamps_ns) and all(
        a < b for a, b in pairwise(stamps_ns)
    )


def _are_small(values: Iterable[float]) -> bool:
    return all(abs(value) <= _LARGEST for value in values)
