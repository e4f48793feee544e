"""The recipes of the sample recordings, and the samples themselves."""

from pathlib import Path

import cv2
import pytest

from baycue.capture.recording import RecordingSource
from baycue.errors import OutputError
from baycue.plan.stance import Handedness, View
from baycue.synthetic.camera import Camera
from baycue.synthetic.make_recording import make_recording
from baycue.synthetic.recipes import Recipe
from baycue.synthetic.rig import Rig
from baycue.synthetic.sample_recipes import SAMPLES, sample
from baycue.synthetic.truth import true_swing
from baycue.synthetic.truth_file import Truth, points_of, read_truth

FOLDER = Path(__file__).parent.parent / "sample_recordings"
NAMES = [recipe.name for recipe in SAMPLES]


def truth(name: str) -> Truth:
    return read_truth(FOLDER / f"{name}.truth.json")


def test_names_are_unique_and_every_sample_is_there() -> None:
    assert len(set(NAMES)) == len(NAMES)
    assert sorted(path.stem for path in FOLDER.glob("*.mp4")) == sorted(NAMES)


def test_the_samples_are_small_enough_to_keep_with_the_program() -> None:
    assert sum(path.stat().st_size for path in FOLDER.iterdir()) < 25_000_000


def test_thirty_frames_a_second_is_commonest_and_a_slow_shutter_is_there() -> None:
    rates = [recipe.fps for recipe in SAMPLES]
    assert {30.0, 60.0, 120.0} == set(rates)
    assert rates.count(30.0) > len(rates) / 2
    assert any(recipe.shutter_s >= 1 / 60 for recipe in SAMPLES if recipe.swings)


def test_the_samples_cover_what_a_bay_sees() -> None:
    assert any(recipe.camera.handedness is Handedness.LEFT for recipe in SAMPLES)
    assert any(recipe.mirrored for recipe in SAMPLES)
    assert any(recipe.camera.view is View.DOWN_THE_LINE for recipe in SAMPLES)
    assert any(len(recipe.swings) == 2 for recipe in SAMPLES)
    assert any(recipe.walker for recipe in SAMPLES if not recipe.swings)
    assert len({recipe.golfer.body for recipe in SAMPLES}) == 3


def test_pass_and_fail_are_told_apart_by_more_than_two_percent_of_stature() -> None:
    passing, failing = truth("knee_pass_30fps"), truth("knee_fail_30fps")
    apart_m = passing.swings[0].knee_past_ankle_m["P6"] - failing.swings[0].knee_past_ankle_m["P6"]
    assert apart_m > 0.02 * passing.stature_m
    assert truth("head_rise_30fps").swings[0].head_rise_m["impact"] == pytest.approx(0.07, abs=1e-4)


@pytest.mark.parametrize("name", NAMES)
def test_a_clip_has_a_frame_for_every_true_frame(name: str) -> None:
    true = truth(name)
    with RecordingSource(FOLDER / f"{name}.mp4") as source:
        assert (source.width_px, source.height_px) == (true.width_px, true.height_px)
        assert source.frame_count == len(true.frames)
        assert source.nominal_fps == pytest.approx(true.fps, rel=0.01)


@pytest.mark.parametrize("name", NAMES)
def test_the_recipe_still_gives_the_truth_that_was_kept(name: str) -> None:
    """A change to the motion without new samples shows here."""
    recipe, kept = sample(name), truth(name)
    motion, shot = recipe.motion(), recipe.shot()
    assert len(motion.swings) == len(kept.swings)
    for (zero_s, swing), true in zip(motion.swings, kept.swings, strict=True):
        made = true_swing(swing, true.number, zero_s)
        assert made.checkpoints_s == pytest.approx(true.checkpoints_s, abs=1e-4)
        assert made.knee_past_ankle_m == pytest.approx(true.knee_past_ankle_m, abs=1e-4)
    for frame in (kept.frames[0], kept.frames[len(kept.frames) // 2], kept.frames[-1]):
        now = points_of(Rig(shot.body), motion.moment_at(frame.time_s))
        for point, then_m in zip(now, frame.points_m, strict=True):
            assert (point is None) == (then_m is None)
            assert point is None or point == pytest.approx(then_m, abs=2e-3)


def test_an_unknown_recipe_is_refused_with_the_names_there_are() -> None:
    with pytest.raises(ValueError, match="knee_pass_30fps"):
        sample("knee_pas_30fps")


def test_a_recording_is_made_once_and_never_overwritten(tmp_path: Path) -> None:
    recipe = Recipe(
        "tiny",
        "Nothing much.",
        idle=("waggles",),
        camera=Camera(width_px=160, height_px=90),
        fps=2.0,
    )
    clip = make_recording(recipe, tmp_path, workers=1)
    frames = len(read_truth(tmp_path / "tiny.truth.json").frames)
    assert frames == round(recipe.motion().duration_s * 2)
    assert cv2.VideoCapture(str(clip)).get(cv2.CAP_PROP_FRAME_COUNT) == frames
    with pytest.raises(OutputError, match="tiny"):
        make_recording(recipe, tmp_path, workers=1)
