"""The annotated clip: what is drawn where, and that captions are whole."""

from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from baycue.capture.clip_writer import ClipWriter
from baycue.capture.frame import Frame, Picture
from baycue.capture.recording import RecordingSource
from baycue.club.reading import Evidence
from baycue.cues.palette import GROUND, Colour
from baycue.errors import OutputError
from baycue.measures.marks import Sight
from baycue.report.annotate import annotate_recording, marks_of
from baycue.report.blur import head_of
from baycue.report.caption import Caption, Strip, caption_at
from baycue.report.drawing import (
    BODY,
    GUESSED_SHAFT,
    MEASURED,
    SHAFT,
    draw_body,
    draw_marks,
    draw_shaft,
)
from baycue.swing.hands import grip_px
from baycue.verdict.verdict import Outcome
from tests.canned_readings import LEFT_HANDER, RIGHT_HANDER
from tests.scored_swing import FPS, scored_swing

FRAME_NS = round(1e9 / FPS)
POSE = scored_swing().evidence.poses[0]


def blank(width: int = 1280, height: int = 720) -> Picture:
    return np.full((height, width, 3), 90, dtype=np.uint8)


def pixels_of(picture: Picture, colour: Colour) -> np.ndarray[tuple[int, int], np.dtype[np.intp]]:
    """(N, 2) x and y of the pixels that have nearly this colour."""
    off = np.abs(picture[..., ::-1].astype(int) - colour).max(axis=2)
    return np.argwhere(off < 20)[:, ::-1]


def test_body_lines_pass_through_the_joints() -> None:
    picture = blank()
    draw_body(picture, POSE)
    drawn = pixels_of(picture, BODY)
    side = RIGHT_HANDER.lead
    for joint in (side.shoulder, side.elbow, side.wrist, side.hip, side.knee, side.ankle):
        assert np.linalg.norm(drawn - POSE.pixel(joint), axis=1).min() < 3


def test_the_knee_bar_spans_from_above_the_ankle_to_the_knee() -> None:
    lead = RIGHT_HANDER.lead
    pixels = POSE.pixels.copy()
    pixels[lead.knee] = pixels[lead.ankle] + [60, -160]
    picture = blank()
    sight = Sight(replace(POSE, pixels=pixels), None, scored_swing().evidence)
    draw_marks(picture, marks_of(scored_swing(), sight))
    drawn = pixels_of(picture, MEASURED)
    at_knee = drawn[np.abs(drawn[:, 1] - pixels[lead.knee][1]) < 2][:, 0]
    assert at_knee.min() == pytest.approx(pixels[lead.ankle][0], abs=4)
    assert at_knee.max() == pytest.approx(pixels[lead.knee][0], abs=10)
    assert np.unique(at_knee).size > 50


@pytest.mark.parametrize(("stance", "sign"), [(RIGHT_HANDER, 1), (LEFT_HANDER, -1)])
def test_ninety_degrees_point_at_the_target(stance: object, sign: int) -> None:
    assert stance in (RIGHT_HANDER, LEFT_HANDER)
    used = RIGHT_HANDER if sign > 0 else LEFT_HANDER
    reading = replace(scored_swing().evidence.shaft[0], angle_deg=90.0, sigma_deg=1.0)
    picture = blank()
    draw_shaft(picture, POSE, reading, used)
    across, down = (pixels_of(picture, SHAFT) - grip_px(POSE)).T
    assert (sign * across).max() > 150
    assert (sign * across).min() > -6
    assert np.abs(down).max() < 12


def test_an_uncertain_shaft_has_a_wider_wedge_and_a_guessed_one_another_colour() -> None:
    reading = replace(scored_swing().evidence.shaft[0], angle_deg=0.0)
    touched = []
    for sigma_deg in (1.0, 10.0):
        picture = blank()
        draw_shaft(picture, POSE, replace(reading, sigma_deg=sigma_deg), RIGHT_HANDER)
        touched.append(int((picture != 90).any(axis=2).sum()))
    assert touched[1] > 3 * touched[0]
    picture = blank()
    guessed = replace(reading, evidence=Evidence.PATH, sigma_deg=1.0)
    draw_shaft(picture, POSE, guessed, RIGHT_HANDER)
    assert len(pixels_of(picture, GUESSED_SHAFT)) > 50
    assert len(pixels_of(picture, SHAFT)) == 0


def test_the_caption_names_the_moment_and_the_verdict_only_once_decided() -> None:
    scored = scored_swing()
    p6 = next(c for c in scored.evidence.swing.checkpoints if c.name.value == "P6")
    before = caption_at(p6.time_ns, FRAME_NS, [scored])
    assert (before.outcome, before.reasons) == (None, ())
    assert before.moment.startswith("P6 (shaft parallel, coming down) at ")
    assert before.is_now
    after = caption_at(scored.decided_ns, FRAME_NS, [scored])
    assert (after.headline, after.outcome) == ("swing 1: FAIL", Outcome.FAIL)
    assert after.reasons[0].startswith("fail: knee past ankle at P6: 2.1 cm")


@pytest.mark.parametrize(("width", "height"), [(1280, 720), (480, 854), (1920, 1080), (320, 240)])
def test_captions_keep_clear_of_every_edge(width: int, height: int) -> None:
    longest = caption_at(scored_swing().decided_ns, FRAME_NS, [scored_swing()])
    long = replace(longest, reasons=("a reason " * 30, "w" * 300, *longest.reasons))
    strip = Strip(width, height, [longest, long])
    for caption in (longest, long, Caption("watching", None, "", False, ())):
        picture = strip.picture(caption)
        assert picture.shape == (strip.height_px, width, 3)
        ink = (np.abs(picture[2:, :, ::-1].astype(int) - GROUND).max(axis=2) > 60).nonzero()
        assert ink[1].min() >= 2
        assert ink[1].max() < width - 2
        assert ink[0].max() < picture.shape[0] - 4


def test_the_clip_has_every_picture_with_the_strip_below(tmp_path: Path) -> None:
    source, clip = tmp_path / "swing.mp4", tmp_path / "annotated.mp4"
    scored = scored_swing()
    frames = scored.evidence.poses[-1].frame_index + 10
    with ClipWriter(source, 1280, 720) as writer:
        for index in range(frames):
            writer.write(Frame(index, index * FRAME_NS, blank()))
    done: list[int] = []
    annotate_recording(source, [scored], clip, done.append)
    assert done == list(range(1, frames + 1))
    with RecordingSource(clip) as annotated:
        pictures = [frame.picture_bgr for frame in annotated]
    assert len(pictures) == frames
    assert pictures[0].shape[0] > 720
    drawn = [bool((np.abs(p[:720].astype(int) - 90) > 60).any()) for p in pictures]
    first = scored.evidence.poses[0].frame_index
    assert drawn == [first <= index < frames - 9 for index in range(frames)]
    with pytest.raises(OutputError, match="exists already"):
        annotate_recording(source, [scored], clip)


def test_the_head_is_blurred_in_every_picture_on_request(tmp_path: Path) -> None:
    source, clip = tmp_path / "swing.mp4", tmp_path / "annotated.mp4"
    rng = np.random.default_rng(1)
    speckled = np.kron(rng.choice([40, 220], (90, 160, 1)), np.ones((8, 8, 3))).astype(np.uint8)
    with ClipWriter(source, 1280, 720) as writer:
        for index in range(4):
            writer.write(Frame(index, index * FRAME_NS, speckled))
    head = head_of(POSE)
    annotate_recording(source, [scored_swing()], clip, blurred={1: head, 2: head})
    left, top = round(head.x_px - 0.7 * head.half_px), round(head.y_px - 0.7 * head.half_px)
    size = round(1.4 * head.half_px)
    with RecordingSource(clip) as annotated:
        for frame in annotated:
            inside = frame.picture_bgr[top : top + size, left : left + size]
            assert inside.std() < 0.5 * speckled.std(), frame.index
            assert frame.picture_bgr[-300:-200, :200].std() > 0.8 * speckled.std()
