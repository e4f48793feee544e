"""Whole clips: stamps, truth's place in the picture, and sameness across processes."""

from dataclasses import dataclass, replace
from pathlib import Path

import numpy as np
import pytest

from baycue.capture.recording import RecordingSource
from baycue.plan.stance import Handedness, View
from baycue.synthetic.bay import PLAIN, Bay, Panel
from baycue.synthetic.body import load_body
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import Shot, render_clip, render_frames
from baycue.synthetic.scene import Moment
from baycue.synthetic.sensor import QUIET

BODY = load_body("adult_male", 1.75)
SMALL = Camera(width_px=240, height_px=180, distance_m=3.2, height_m=1.0, field_of_view_deg=50)
DARK = Bay((Panel((-9, -5, -3), (18, 0, 0), (0, 12, 0), "#101010", grain=0.0),))


@dataclass(frozen=True)
class Drifting:
    """A ball that drifts past, before a body standing still if there is one."""

    with_body: bool = True

    def __call__(self, time_s: float) -> Moment:
        bones = BODY.bone_rest if self.with_body else None
        return Moment(bones, ball_m=np.array([0.5 + 0.5 * time_s, 1.2, 0.3]))


def test_frames_are_stamped_at_the_middle_of_their_exposure() -> None:
    frames = list(render_frames(Shot(BODY, SMALL, fps=50.0), Drifting(), 0.1, workers=1))
    assert [f.index for f in frames] == [0, 1, 2, 3, 4]
    assert [f.stamp_ns for f in frames] == [0, 20_000_000, 40_000_000, 60_000_000, 80_000_000]


def test_pictures_are_the_same_from_any_process() -> None:
    shot = Shot(BODY, SMALL, PLAIN, seed=11)
    alone = list(render_frames(shot, Drifting(), 0.1, workers=1))
    shared = list(render_frames(shot, Drifting(), 0.1, workers=2))
    assert len(alone) == 3
    for one, other in zip(alone, shared, strict=True):
        assert (one.picture_bgr == other.picture_bgr).all()


@pytest.mark.parametrize("mirrored", [False, True])
@pytest.mark.parametrize("handedness", Handedness)
@pytest.mark.parametrize("view", View)
def test_things_appear_where_picture_px_says(
    view: View, handedness: Handedness, mirrored: bool
) -> None:
    camera = replace(SMALL, view=view, handedness=handedness)
    shot = Shot(BODY, camera, DARK, noise=QUIET, shutter_s=0.001, mirrored=mirrored)
    (frame,) = render_frames(shot, Drifting(with_body=False), 0.01, workers=1)
    bright = frame.picture_bgr[..., 1].astype(float)
    bright[bright < 100] = 0
    rows, columns = np.indices(bright.shape)
    seen = [(columns * bright).sum() / bright.sum(), (rows * bright).sum() / bright.sum()]
    assert seen == pytest.approx(shot.picture_px(np.array([[0.5, 1.2, 0.3]]))[0], abs=0.5)


def replace_view(view: View, handedness: Handedness) -> Camera:
    return replace(SMALL, view=view, handedness=handedness)


def test_mirroring_flips_the_finished_picture() -> None:
    shot = Shot(BODY, SMALL)
    (plain,) = render_frames(shot, Drifting(), 0.02, workers=1)
    (flipped,) = render_frames(replace(shot, mirrored=True), Drifting(), 0.02, workers=1)
    assert (flipped.picture_bgr == plain.picture_bgr[:, ::-1]).all()


def test_a_second_person_is_drawn_too() -> None:
    def two(_: float) -> Moment:
        walker = BODY.bone_rest.copy()
        walker[:, 0, 3] += 0.9
        return Moment(BODY.bone_rest, walker=walker)

    shot = Shot(BODY, SMALL, DARK, noise=QUIET, walker_body=BODY)
    (one,) = render_frames(shot, lambda _: Moment(BODY.bone_rest), 0.02, workers=1)
    (both,) = render_frames(shot, two, 0.02, workers=1)
    changed = (one.picture_bgr != both.picture_bgr).any(axis=2)
    assert changed[:, 150:].sum() > 500


def test_clip_plays_at_its_frame_rate(tmp_path: Path) -> None:
    path = tmp_path / "clip.mp4"
    done: list[tuple[int, int]] = []
    written = render_clip(
        Shot(BODY, SMALL, fps=120.0),
        Drifting(),
        0.05,
        path,
        workers=1,
        progress=lambda n, of: done.append((n, of)),
    )
    assert written == 6
    assert done[-1] == (6, 6)
    with RecordingSource(path) as recording:
        frames = list(recording)
    assert [f.stamp_ns for f in frames] == pytest.approx([i * 1e9 / 120 for i in range(6)], abs=1e4)
    assert frames[0].picture_bgr.shape == (180, 240, 3)
