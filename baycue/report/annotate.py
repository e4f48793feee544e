"""The recording again with what was seen drawn on it: body, shaft, checkpoint, verdict."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path

import cv2
import numpy as np
from numpy.typing import NDArray

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from baycue.capture.recording import RecordingSource
from baycue.club.reading import Evidence, ShaftReading
from baycue.pose.pose import Pose
from baycue.pose.sides import LEFT, RIGHT, Side, Stance
from baycue.spine import ScoredSwing
from baycue.swing.hands import grip_px, hand_sample
from baycue.swing.swing import Checkpoint

Point = tuple[int, int]

_BODY, _KNEE, _CLUB, _GUESSED, _INK, _PAPER = (
    (235, 235, 235),
    (0, 215, 255),
    (255, 200, 60),
    (150, 150, 150),
    (255, 255, 255),
    (40, 30, 20),
)
_CLUB_BODIES = 0.55
_NAMED_FOR_NS = 200_000_000
_LINE_HEIGHT = 0.045


@dataclass(frozen=True, slots=True)
class _Noted:
    """What is known of one frame."""

    pose: Pose
    shaft: ShaftReading | None
    scored: ScoredSwing


def annotate_recording(
    source_path: Path,
    swings: Sequence[ScoredSwing],
    clip_path: Path,
    on_frame: Callable[[int], None] | None = None,
) -> None:
    """Write ``clip_path``, a copy of the recording with the findings drawn on it.

    Raises RecordingError or OutputError; never overwrites.
    """
    noted = _notes(swings)
    with (
        RecordingSource(source_path) as source,
        ClipWriter(clip_path, source.width_px, source.height_px) as writer,
    ):
        for done, frame in enumerate(source, start=1):
            picture = frame.picture_bgr.copy()
            _draw(picture, frame, noted.get(frame.index), swings)
            writer.write(Frame(frame.index, frame.stamp_ns, picture))
            if on_frame:
                on_frame(done)


def _notes(swings: Sequence[ScoredSwing]) -> dict[int, _Noted]:
    notes = {}
    for scored in swings:
        shaft = {reading.frame_index: reading for reading in scored.evidence.shaft}
        for pose in scored.evidence.poses:
            notes[pose.frame_index] = _Noted(pose, shaft.get(pose.frame_index), scored)
    return notes


def _draw(
    picture: Picture, frame: Frame, noted: _Noted | None, swings: Sequence[ScoredSwing]
) -> None:
    if noted is not None:
        _draw_body(picture, noted.pose, noted.scored.evidence.stance)
        if noted.shaft is not None:
            _draw_shaft(picture, noted.pose, noted.shaft, noted.scored.evidence.stance)
    _write(picture, _caption(frame.stamp_ns, swings))


def _caption(stamp_ns: int, swings: Sequence[ScoredSwing]) -> list[str]:
    """The checkpoint just passed, and from the decision on the verdict and its reasons."""
    lines = []
    for scored in swings:
        passed = [c for c in scored.evidence.swing.checkpoints if _just_passed(c, stamp_ns)]
        lines += [f"{c.name.value} at {c.time_ns / 1e9:.3f} s" for c in passed[-1:]]
    decided = [s for s in swings if s.decided_ns <= stamp_ns]
    if decided:
        verdict = decided[-1].verdict
        lines.append(f"swing {verdict.swing_number}: {verdict.outcome.value.upper()}")
        lines += [answer.reason for answer in verdict.targets]
    return lines


def _just_passed(checkpoint: Checkpoint, stamp_ns: int) -> bool:
    return 0 <= stamp_ns - checkpoint.time_ns < _NAMED_FOR_NS


def _draw_body(picture: Picture, pose: Pose, stance: Stance) -> None:
    thick = _thickness(picture)
    for side in (LEFT, RIGHT):
        for chain in _chains(side):
            points = pose.pixels[list(chain)].round().astype(np.int32)
            cv2.polylines(picture, [points], False, _BODY, thick, cv2.LINE_AA)
    lead = stance.lead
    knee, ankle = _point(pose.pixel(lead.knee)), _point(pose.pixel(lead.ankle))
    cv2.line(picture, ankle, (ankle[0], knee[1]), _KNEE, thick, cv2.LINE_AA)
    cv2.line(picture, (ankle[0], knee[1]), knee, _KNEE, 2 * thick, cv2.LINE_AA)


def _chains(side: Side) -> tuple[tuple[int, ...], ...]:
    return (side.shoulder, side.elbow, side.wrist), (side.shoulder, side.hip, side.knee, side.ankle)


def _draw_shaft(picture: Picture, pose: Pose, shaft: ShaftReading, stance: Stance) -> None:
    """The shaft, between two fine lines at its spread."""
    hands, reach = grip_px(pose), _CLUB_BODIES * hand_sample(pose).body_px
    seen = shaft.evidence is Evidence.PICTURE
    for offset, thick in ((-1, 1), (1, 1), (0, 2 * _thickness(picture))):
        angle = np.radians(shaft.angle_deg + offset * shaft.sigma_deg)
        along = np.array([np.sin(angle) * stance.toward_target, np.cos(angle)])
        colour = _CLUB if seen else _GUESSED
        cv2.line(picture, _point(hands), _point(hands + reach * along), colour, thick, cv2.LINE_AA)


def _write(picture: Picture, lines: list[str]) -> None:
    step = round(_LINE_HEIGHT * picture.shape[0])
    for number, line in enumerate(lines, start=1):
        at, scale = (step // 2, number * step), step / 36
        for colour, thick in ((_PAPER, 5), (_INK, 1)):
            cv2.putText(
                picture, line, at, cv2.FONT_HERSHEY_SIMPLEX, scale, colour, thick, cv2.LINE_AA
            )


def _thickness(picture: Picture) -> int:
    return max(1, int(picture.shape[0]) // 400)


def _point(place_px: NDArray[np.float64]) -> Point:
    return round(float(place_px[0])), round(float(place_px[1]))
