"""The detector's figures: on tracks made by hand, and on a sample whose truth lies beside it."""

import io
import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from rich.console import Console

from baycue.bench.detector_figures import (
    detector_figures,
    downswing,
    joint_noise,
    lag_s,
    still,
)
from baycue.bench.detector_tracks import (
    JOINTS,
    Clock,
    Tracks,
    nose_at,
    poses_in,
    read_tracks,
    seen_joints,
    write_tracks,
)
from baycue.commands.bench_detector import DetectorRequest, run_bench_detector
from baycue.pose.sides import Stance
from baycue.synthetic.body import load_body
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.truth_file import JOINTS as BONES
from baycue.synthetic.truth_file import read_truth

SAMPLES = Path(__file__).parents[1] / "sample_recordings"
WRIST, ANKLE = JOINTS.index("lead_wrist"), JOINTS.index("lead_ankle")
TOP_S, IMPACT_S, STATURE_PX = 1.6, 1.9, 400.0


def way_px(times_s: np.ndarray) -> np.ndarray:
    """(F, J, 2): every joint at rest but the lead wrist, which swings from the top."""
    px = np.tile([600.0, 300.0], (len(times_s), len(JOINTS), 1))
    px[:, WRIST, 0] += 1500.0 * np.clip(times_s - 1.5, 0.0, None) ** 2
    return px


def made(late_s: float = 0.0, off_px: tuple[float, float] = (0.0, 0.0), noise: float = 0) -> Tracks:
    times_s, fine_s = np.arange(0.0, 2.2, 1 / 60), np.arange(1.5, 2.0, 0.001)
    rng = np.random.default_rng(4)
    seen = way_px(times_s - late_s) + off_px + noise * rng.standard_normal((len(times_s), 13, 2))
    return Tracks(
        name="made by hand",
        fps=60.0,
        stature_px=STATURE_PX,
        toward_target=-1,
        still_until_s=0.9,
        top_s=TOP_S,
        impact_s=IMPACT_S,
        times_s=times_s,
        seen_px=dict.fromkeys(Clock, seen),
        true_px=way_px(times_s),
        fine_s=fine_s,
        fine_px=way_px(fine_s),
    )


@pytest.mark.parametrize("late_s", [-0.0123, 0.0, 0.008, 0.0305])
def test_a_lag_is_found_whatever_the_constant_offset(late_s: float) -> None:
    tracks = made(late_s, off_px=(7.0, -4.0))
    assert lag_s([tracks, tracks], Clock.TRUE, WRIST) == pytest.approx(late_s, abs=2e-4)


def test_a_joint_at_rest_has_no_lag() -> None:
    assert np.isnan(lag_s([made(0.02)], Clock.TRUE, ANKLE))


def test_error_and_bias_are_what_was_put_in() -> None:
    figures = detector_figures([made(off_px=(6.0, -8.0))])
    ankle = figures.followed[Clock.ALONE]["lead_ankle"]
    assert ankle.rms_px == pytest.approx(10.0)
    assert (ankle.rms_percent, ankle.median_percent) == pytest.approx((2.5, 2.5))
    assert ankle.jitter_px == pytest.approx(0.0, abs=1e-9)
    noise = figures.noise[Clock.ALONE]["downswing"]["lead_ankle"]
    assert noise.along.bias == pytest.approx(-1.5), "the target is on the picture's left"
    assert noise.up.bias == pytest.approx(2.0), "up is toward the picture's top"


def test_noise_between_swings_and_within_one_are_kept_apart() -> None:
    swings = [made(off_px=(off, 0.0), noise=2.0) for off in (-4.0, 0.0, 4.0)]
    along = joint_noise(swings, Clock.TRUE, ANKLE, downswing).along
    assert along.between == pytest.approx(1.0, rel=0.01)  # 4 px of 400
    assert along.within == pytest.approx(0.5, rel=0.4)  # 2 px, from 19 frames
    jitter = detector_figures(swings).followed[Clock.TRUE]["lead_ankle"].jitter_px
    assert jitter == pytest.approx(2.0, rel=0.2)


def test_frames_without_a_body_are_counted_and_left_out() -> None:
    tracks = made(off_px=(6.0, -8.0))
    seen = tracks.seen_px[Clock.TRUE].copy()
    seen[np.flatnonzero(downswing(tracks))[:9]] = np.nan
    gaps = replace(tracks, seen_px=dict.fromkeys(Clock, seen))
    figures = detector_figures([gaps]).followed[Clock.TRUE]["lead_ankle"]
    assert figures.missed == pytest.approx(9 / downswing(tracks).sum())
    assert figures.rms_px == pytest.approx(10.0)


def test_tracks_kept_are_used_again_and_told(tmp_path: Path) -> None:
    request = DetectorRequest(swings=2, seed=3, out=tmp_path)
    for drawn in request.draws():
        write_tracks(request.tracks_file(drawn), replace(made(0.01), fps=drawn.fps))
    kept = read_tracks(request.tracks_file(request.draws()[0]))
    np.testing.assert_array_equal(kept.seen_px[Clock.ALONE], made(0.01).seen_px[Clock.ALONE])
    console = Console(record=True, width=150, file=io.StringIO())
    run_bench_detector(request, console)
    said = console.export_text()
    assert "30 fps, 1 swings" in said
    assert "60 fps, 1 swings" in said
    document = json.loads((tmp_path / "detector.json").read_text())
    wrist = document["60 fps"]["followed"]["true stamps"]["lead_wrist"]
    assert wrist["lag_ms"] == pytest.approx(10.0, abs=0.2)


def test_the_nose_is_the_foremost_of_the_head() -> None:
    swing = SwingMotion(load_body("adult_male", 1.78), SwingStyle())
    moment = swing.moment_at(0.0)
    assert moment.bones is not None
    head_m = moment.bones[swing.body.bone("head"), :3, 3]
    nose_m = nose_at(swing.body, moment)
    assert nose_m[2] > head_m[2] + 0.05
    assert abs(nose_m[0] - head_m[0]) < 0.05


@cache
def sampled() -> Tracks:
    """A sample through the real pose model; its truth is per frame and has no nose."""
    truth = read_truth(SAMPLES / "knee_pass_30fps.truth.json")
    poses = {clock: poses_in(SAMPLES / "knee_pass_30fps.mp4", clock) for clock in Clock}
    times_s = np.array([frame.time_s for frame in truth.frames])
    true = np.full((len(times_s), len(JOINTS), 2), np.nan)
    true[:, 1:] = [[frame.px(bone) for bone in BONES] for frame in truth.frames]
    at_s = truth.swings[0].checkpoints_s
    return Tracks(
        name=truth.recipe,
        fps=truth.fps,
        stature_px=STATURE_PX,
        toward_target=1,
        still_until_s=at_s["takeaway"],
        top_s=at_s["top"],
        impact_s=at_s["impact"],
        times_s=times_s,
        seen_px={clock: seen_joints(found, Stance(True)) for clock, found in poses.items()},
        true_px=true,
        fine_s=times_s,
        fine_px=true,
    )


def test_told_the_true_time_mediapipe_is_calmer_and_later() -> None:
    tracks = sampled()
    figures = detector_figures([tracks]).followed
    smoothed, raw = figures[Clock.TRUE], figures[Clock.UNSMOOTHED]
    assert still(tracks).sum() > 10
    assert smoothed["lead_knee"].jitter_px < raw["lead_knee"].jitter_px
    assert smoothed["trail_knee"].lag_ms > raw["trail_knee"].lag_ms + 2
    assert smoothed["trail_wrist"].rms_px > raw["trail_wrist"].rms_px
