"""A swing's pictures with what was seen in each, ready to be shown in any order."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from baycue.capture.frame import Picture
from baycue.capture.recording import RecordingSource
from baycue.capture.shot import Shot
from baycue.club.reading import ShaftReading
from baycue.errors import FilmGoneError
from baycue.keep.film import packed_shot
from baycue.keep.record import Later, SwingRecord
from baycue.measures.marks import Sight
from baycue.pose.pose import Pose
from baycue.report.blur import ANOTHER_PICTURES, blur_face
from baycue.spine import ScoredSwing
from baycue.swing.swing import CheckpointName

BEFORE_NS, AFTER_NS = 500_000_000, 1_000_000_000
"""Shown before takeaway, and after the last that is known of the swing."""

_NOTHING_LATER = Later()


@dataclass(frozen=True, eq=False)
class SwingFilm:
    """``shots`` (at least one, in order of time) of a swing, packed as JPEG.

    ``later``: what was seen after the verdict.  ``blur_faces``: the golfer's head is made
    unrecognisable in every picture, by the nearest pose where none was found in it.
    """

    shots: tuple[Shot, ...]
    scored: ScoredSwing
    later: Later = _NOTHING_LATER
    blur_faces: bool = False

    @cached_property
    def stamps_ns(self) -> tuple[int, ...]:
        """When each picture was taken."""
        return tuple(shot.stamp_ns for shot in self.shots)

    @cached_property
    def checkpoints_ns(self) -> dict[CheckpointName, int]:
        """The checkpoints within the film."""
        found = (*self.scored.evidence.swing.checkpoints, *self.later.checkpoints)
        first, last = self.stamps_ns[0], self.stamps_ns[-1]
        return {c.name: c.time_ns for c in found if first <= c.time_ns <= last}

    def index_at(self, time_ns: float) -> int:
        """The picture nearest to a time."""
        return min(range(len(self.shots)), key=lambda k: abs(self.stamps_ns[k] - time_ns))

    def picture(self, index: int) -> Picture:
        """One picture, writable; CameraError if its JPEG is damaged."""
        picture = self.shots[index].developed().picture_bgr.copy()
        if self.blur_faces:
            self._blur(picture, self.stamps_ns[index])
        return picture

    def _blur(self, picture: Picture, stamp_ns: int) -> None:
        poses, evidence = self._poses, self.scored.evidence
        nearest = min(poses, key=lambda at_ns: abs(at_ns - stamp_ns))
        room = 1.0 if nearest == stamp_ns else ANOTHER_PICTURES
        blur_face(picture, evidence.pose_as_filmed(poses[nearest]), room)

    def sight(self, index: int) -> Sight | None:
        """What was seen in one picture, as it lies in it; None where no pose was found."""
        pose = self._poses.get(self.stamps_ns[index])
        if pose is None:
            return None
        evidence, shaft = self.scored.evidence, self._shaft.get(pose.stamp_ns)
        turned = evidence.shaft_as_filmed(shaft) if shaft else None
        return Sight(evidence.pose_as_filmed(pose), turned, evidence)

    @cached_property
    def address_sight(self) -> Sight:
        """What was seen first, which tells where and how large the golfer is."""
        evidence = self.scored.evidence
        return Sight(evidence.pose_as_filmed(evidence.poses[0]), None, evidence)

    @cached_property
    def _poses(self) -> dict[int, Pose]:
        return {p.stamp_ns: p for p in (*self.scored.evidence.poses, *self.later.poses)}

    @cached_property
    def _shaft(self) -> dict[int, ShaftReading]:
        return {r.stamp_ns: r for r in (*self.scored.evidence.shaft, *self.later.shaft)}


def span_of(scored: ScoredSwing, later: Later = _NOTHING_LATER) -> tuple[int, int]:
    """From when to when a swing is worth seeing, ns."""
    known = [c.time_ns for c in (*scored.evidence.swing.checkpoints, *later.checkpoints)]
    takeaway = scored.evidence.swing.at(CheckpointName.TAKEAWAY)
    start = takeaway.time_ns if takeaway else scored.evidence.poses[0].stamp_ns
    return start - BEFORE_NS, max([*known, scored.decided_ns]) + AFTER_NS


def film_of_shots(
    shots: Iterable[Shot], scored: ScoredSwing, later: Later = _NOTHING_LATER
) -> SwingFilm | None:
    """The swing's part of some shots; None if there is nothing of it."""
    since_ns, until_ns = span_of(scored, later)
    taken = tuple(packed_shot(s) for s in shots if since_ns <= s.stamp_ns <= until_ns)
    return SwingFilm(taken, scored, later) if taken else None


def film_of_recording(path: Path, scored: ScoredSwing) -> SwingFilm:
    """The swing's part of the recording that it was found in; RecordingError if unreadable."""
    with RecordingSource(path) as source:
        film = film_of_shots((Shot(f.index, f.stamp_ns, f.picture_bgr) for f in source), scored)
    if film is None:
        raise FilmGoneError(f"{path}: shows nothing of swing {scored.verdict.swing_number}")
    return film


def film_of_record(record: SwingRecord, path: Path) -> SwingFilm:
    """A kept swing; KeptError if it was not judged or has no film, RecordingError if damaged."""
    if record.scored is None:
        raise FilmGoneError(f"swing {record.number} was not judged: {record.unscorable}")
    if record.film is None:
        raise FilmGoneError(
            f"swing {record.number} has no film: {record.no_film or 'none was kept'}"
        )
    with RecordingSource(path) as source:
        stamped = zip(source, record.film.stamps_ns, strict=False)
        shots = [Shot(frame.index, ns, frame.picture_bgr) for frame, ns in stamped]
    film = film_of_shots(shots, record.scored, record.later)
    if film is None:
        raise FilmGoneError(f"{path}: shows nothing of swing {record.number}")
    return film
