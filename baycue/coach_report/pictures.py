"""A swing shown: a still at its checkpoint and a short clip, with what was measured drawn on."""

import base64
import tempfile
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from baycue.capture.recording import RecordingSource
from baycue.coach_report.figures import Shown, TargetFigures
from baycue.errors import BaycueError
from baycue.keep.kept_film import see_kept
from baycue.keep.record import SwingRecord
from baycue.measures.catalogue import measure_named
from baycue.measures.lane import lane
from baycue.measures.marks import Sight
from baycue.plan.target import Target
from baycue.plan.units import say
from baycue.report.blur import blur_face
from baycue.report.drawing import draw_body, draw_marks, draw_shaft
from baycue.swing.swing import CheckpointName
from baycue.verdict.judge import allowed_by

_STILL_PX, _CLIP_PX = 540, 360
"""Heights."""
_CLIP_FPS = 30.0
_SLOWER = 2
_BEFORE_NS = 100_000_000
_ROOM_BODIES = 0.45


@dataclass(frozen=True, slots=True)
class ShownSwing:
    """JPEG and MP4 in base64 (``clip`` may be empty), and the words that go with them."""

    still: str
    clip: str
    alt: str
    caption: str


@dataclass(frozen=True, slots=True)
class Pictures:
    """The swings shown for one target."""

    shown: tuple[ShownSwing, ...]


def pictures_of(
    figures: Iterable[TargetFigures], blur_faces: bool, clips: bool = True
) -> dict[Target, Pictures]:
    """The best and a typical failing swing of every target whose films were kept."""
    return {
        f.target: Pictures(tuple(_of_target(f, blur_faces, clips)))
        for f in figures
        if f.best or f.typical_fail
    }


def _of_target(figures: TargetFigures, blur_faces: bool, clips: bool) -> Iterator[ShownSwing]:
    for what, shown in (("Best", figures.best), ("Typical fail", figures.typical_fail)):
        if shown is None or shown.swing.sidecar is None or shown.swing.film is None:
            continue
        try:
            seen = see_kept(shown.swing.sidecar, seen_frames)
            told = _shown(what, shown, seen, blur_faces, clips)
        except BaycueError:  # a film or sidecar that is gone or damaged shows nothing
            continue
        if told is not None:
            yield told


@dataclass(frozen=True, slots=True)
class Seen:
    """A picture of the film with what was seen in it."""

    stamp_ns: int
    picture: Picture
    sight: Sight


def seen_frames(record: SwingRecord, film: Path) -> list[Seen]:
    """Every picture in which a pose was found, from takeaway on; BaycueError if unreadable."""
    if record.scored is None or record.film is None:
        return []
    evidence = record.scored.evidence
    poses = {p.stamp_ns: p for p in (*evidence.poses, *record.later.poses)}
    shaft = {r.stamp_ns: r for r in (*evidence.shaft, *record.later.shaft)}
    takeaway = record.checkpoint(CheckpointName.TAKEAWAY)
    since_ns = takeaway.time_ns - _BEFORE_NS if takeaway else 0
    with RecordingSource(film) as source:
        return [
            Seen(
                stamp_ns,
                frame.picture_bgr,
                Sight(
                    evidence.pose_as_filmed(poses[stamp_ns]),
                    evidence.shaft_as_filmed(shaft[stamp_ns]) if stamp_ns in shaft else None,
                    evidence,
                ),
            )
            for frame, stamp_ns in zip(source, record.film.stamps_ns, strict=False)
            if stamp_ns in poses and stamp_ns >= since_ns
        ]


def _shown(
    what: str, shown: Shown, seen: list[Seen], blur_faces: bool, clips: bool
) -> ShownSwing | None:
    if not seen:
        return None
    target = shown.answer.target
    moment = target.when.end or target.when.start or CheckpointName.IMPACT
    checkpoint = seen[0].sight.evidence.swing.at(moment)
    at_ns = checkpoint.time_ns if checkpoint else seen[-1].stamp_ns
    nearest = min(seen, key=lambda s: abs(s.stamp_ns - at_ns))
    what_and_where = f"{what}: swing {shown.swing.number} of session {shown.session}"
    still = _about_golfer(drawn(nearest, target, blur_faces), nearest.sight)
    return ShownSwing(
        still=_jpeg(_scaled(still, _STILL_PX)),
        clip=_mp4(seen, target, blur_faces) if clips else "",
        alt=f"{what_and_where} at {moment.value}, with {target.measure} drawn on the golfer",
        caption=f"{what_and_where}, at {moment.value}{_value(shown)}",
    )


def _value(shown: Shown) -> str:
    bound = shown.answer.target.bound.low or shown.answer.target.bound.high
    if bound is None or shown.answer.value is None:
        return ""
    return f": {say(shown.answer.value, bound.written)}"


def _about_golfer(picture: Picture, sight: Sight) -> Picture:
    """The part of the picture that holds the golfer with a club's room."""
    room = _ROOM_BODIES * sight.body_px
    low, high = sight.pose.pixels.min(axis=0) - room, sight.pose.pixels.max(axis=0) + room
    left, top = np.maximum(0, low).astype(int)
    right, bottom = high.astype(int)
    return np.ascontiguousarray(picture[top:bottom, left:right])


def drawn(seen: Seen, target: Target, blur_faces: bool) -> Picture:
    """The picture with body, shaft and what the target measured."""
    picture = seen.picture.copy()
    if blur_faces:
        blur_face(picture, seen.sight.pose)
    draw_body(picture, seen.sight.pose)
    if seen.sight.shaft is not None:
        draw_shaft(picture, seen.sight.pose, seen.sight.shaft, seen.sight.stance)
    measure = measure_named(target.measure)
    if measure is not None:
        allowed = lane(seen.sight, measure, allowed_by(target))
        draw_marks(picture, (*allowed, *measure.draw(seen.sight)))
    return picture


def _scaled(picture: Picture, height_px: int) -> Picture:
    share = min(1.0, height_px / picture.shape[0])
    width = 2 * round(share * picture.shape[1] / 2)
    height = 2 * round(share * picture.shape[0] / 2)
    return np.asarray(cv2.resize(picture, (width, height), interpolation=cv2.INTER_AREA), np.uint8)


def _jpeg(picture: Picture) -> str:
    _, data = cv2.imencode(".jpg", picture, [cv2.IMWRITE_JPEG_QUALITY, 80])
    return base64.b64encode(data.tobytes()).decode()


def _mp4(seen: list[Seen], target: Target, blur_faces: bool) -> str:
    """Takeaway to verdict at half speed."""
    first = _scaled(seen[0].picture, _CLIP_PX)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "clip.mp4"
        with ClipWriter(path, first.shape[1], first.shape[0], crf=30, preset="medium") as writer:
            for number, one in enumerate(_thinned(seen)):
                picture = _scaled(drawn(one, target, blur_faces), _CLIP_PX)
                writer.write(Frame(number, _SLOWER * one.stamp_ns, picture))
        return base64.b64encode(path.read_bytes()).decode()


def _thinned(seen: list[Seen]) -> Iterator[Seen]:
    """No more pictures than the clip's rate shows."""
    step_ns, last_ns = 0.9e9 / _CLIP_FPS / _SLOWER, -1e18
    for one in seen:
        if one.stamp_ns - last_ns >= step_ns:
            yield one
            last_ns = one.stamp_ns
