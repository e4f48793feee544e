"""The recording again with what was seen drawn on it, and captions underneath."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from baycue.capture.recording import RecordingSource
from baycue.club.reading import ShaftReading
from baycue.measures.catalogue import measure_named
from baycue.measures.lane import lane
from baycue.measures.marks import Mark, Sight
from baycue.plan.stance import View
from baycue.pose.pose import Pose
from baycue.report.blur import Head, blur_golfer
from baycue.report.caption import DOWN_THE_LINE_LEGEND, FACE_ON_LEGEND, Strip, caption_at
from baycue.report.drawing import draw_body, draw_marks, draw_shaft
from baycue.spine import ScoredSwing
from baycue.verdict.verdict import TargetVerdict


@dataclass(frozen=True, slots=True)
class _Noted:
    """What the verdict knew of one frame."""

    pose: Pose
    shaft: ShaftReading | None
    scored: ScoredSwing


def annotate_recording(
    source_path: Path,
    swings: Sequence[ScoredSwing],
    clip_path: Path,
    on_frame: Callable[[int], None] | None = None,
    blurred: Mapping[int, Head] | None = None,
) -> None:
    """Write ``clip_path``, a copy of the recording with the findings drawn on it.

    The picture keeps its size and a strip with the captions is added below, so the clip is
    higher than the recording.  Drawn is what the verdict was made from: nothing after it.
    ``blurred``: heads to be made unrecognisable, by the frame's index.

    Raises RecordingError or OutputError; never overwrites.
    """
    noted = _notes(swings)
    with RecordingSource(source_path) as source:
        frame_ns = round(1e9 / source.nominal_fps)
        strip = _strip(source, frame_ns, swings)
        height_px = source.height_px + strip.height_px
        with ClipWriter(clip_path, source.width_px, height_px) as writer:
            for done, frame in enumerate(source, start=1):
                below = strip.picture(caption_at(frame.stamp_ns, frame_ns, swings))
                picture = np.vstack([drawn_on(frame, noted.get(frame.index), blurred or {}), below])
                writer.write(Frame(frame.index, frame.stamp_ns, picture))
                if on_frame:
                    on_frame(done)


def drawn_on(frame: Frame, noted: _Noted | None, blurred: Mapping[int, Head]) -> Picture:
    """The frame's picture, with the golfer drawn on it if anything is known of it."""
    picture = frame.picture_bgr.copy()
    blur_golfer(picture, blurred, frame.index)
    if noted is None:
        return picture
    evidence = noted.scored.evidence
    draw_body(picture, noted.pose)
    if noted.shaft is not None:
        draw_shaft(picture, noted.pose, noted.shaft, evidence.stance)
    draw_marks(picture, marks_of(noted.scored, Sight(noted.pose, noted.shaft, evidence)))
    return picture


def marks_of(scored: ScoredSwing, sight: Sight) -> list[Mark]:
    """What the swing's measures show on one of its pictures, each once, and what plans allow."""
    answered = [t for t in scored.verdict.targets if t.measurement]
    taken = {t.measurement.measure: None for t in answered if t.measurement}
    measures = [m for name in taken if (m := measure_named(name))]
    lanes = [mark for answer in answered for mark in _lane_of(answer, sight)]
    return [*lanes, *(mark for measure in measures for mark in measure.draw(sight))]


def _lane_of(answer: TargetVerdict, sight: Sight) -> tuple[Mark, ...]:
    measure = measure_named(answer.measurement.measure) if answer.measurement else None
    return lane(sight, measure, answer.allowed) if measure and answer.allowed else ()


def _strip(source: RecordingSource, frame_ns: int, swings: Sequence[ScoredSwing]) -> Strip:
    """A strip high enough for everything that will be said."""
    told = [c.time_ns for s in swings for c in s.evidence.swing.checkpoints]
    moments = [0, *told, *(s.decided_ns for s in swings)]
    captions = [caption_at(stamp, frame_ns, swings) for stamp in moments]
    face_on = all(s.evidence.view is View.FACE_ON for s in swings)
    legend = FACE_ON_LEGEND if face_on else DOWN_THE_LINE_LEGEND
    return Strip(source.width_px, source.height_px, captions, legend)


def _notes(swings: Sequence[ScoredSwing]) -> dict[int, _Noted]:
    notes = {}
    for scored in swings:
        shaft = {
            r.frame_index: r for r in map(scored.evidence.shaft_as_filmed, scored.evidence.shaft)
        }
        for pose in map(scored.evidence.pose_as_filmed, scored.evidence.poses):
            notes[pose.frame_index] = _Noted(pose, shaft.get(pose.frame_index), scored)
    return notes
