"""The truth of a synthetic swing, checked against the motion itself."""

import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest

from baycue.errors import OutputError, RecordingError
from baycue.plan.stance import Handedness
from baycue.swing.swing import CheckpointName
from baycue.synthetic.body import load_body
from baycue.synthetic.camera import Camera
from baycue.synthetic.clip import Shot
from baycue.synthetic.motion import OneAfterAnother, standing_still
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.truth import TrueSwing, true_checkpoints, true_swing
from baycue.synthetic.truth_file import read_truth, truth_of, write_truth

STYLE = SwingStyle(knee_past_ankle_at_p6_m=0.06, head_rise_at_impact_m=0.02)


@pytest.fixture(scope="module")
def swing() -> SwingMotion:
    return SwingMotion(load_body("adult_male", 1.80), STYLE)


@pytest.fixture(scope="module")
def true(swing: SwingMotion) -> TrueSwing:
    return true_swing(swing)


def test_checkpoints_come_in_order(true: TrueSwing) -> None:
    times = list(true.checkpoints_s.values())
    assert times == sorted(times)
    assert list(true.checkpoints_s) == [name.value for name in CheckpointName]


def test_the_shaft_is_parallel_where_it_should_be(true: TrueSwing) -> None:
    assert true.shaft_deg["P2"] == pytest.approx(-90.0, abs=1e-3)
    assert true.shaft_deg["P6"] == pytest.approx(-90.0, abs=1e-3)
    assert true.shaft_deg["P8"] == pytest.approx(90.0, abs=1e-3)


def test_the_lead_arm_is_parallel_where_it_should_be(true: TrueSwing) -> None:
    assert true.lead_arm_deg["P3"] == pytest.approx(-90.0, abs=1e-3)
    assert true.lead_arm_deg["P5"] == pytest.approx(-90.0, abs=1e-3)


def test_roots_agree_with_the_models_own_times(swing: SwingMotion) -> None:
    """The two-link solution says when the shaft is parallel; the roots are found on the bones."""
    times = true_checkpoints(swing)
    assert times[CheckpointName.P6] == pytest.approx(swing.phases.p6_s, abs=1e-5)
    assert times[CheckpointName.IMPACT] == pytest.approx(swing.phases.impact_s, abs=1e-5)
    assert times[CheckpointName.P8] == pytest.approx(swing.phases.p8_s, abs=1e-5)
    assert times[CheckpointName.TOP] == pytest.approx(swing.phases.top_s, abs=3e-3)


def test_address_is_the_last_still_moment(swing: SwingMotion, true: TrueSwing) -> None:
    at_s = true.checkpoints_s["takeaway"]
    heads = [swing.golfer_at(at_s + shift)[1].head_m for shift in (-0.2, 0.0, 0.2)]
    assert np.linalg.norm(heads[1] - heads[0]) < 1e-9
    assert np.linalg.norm(heads[2] - heads[1]) > 0.02


def test_measures_are_the_styles(true: TrueSwing) -> None:
    assert true.knee_past_ankle_m["P6"] == pytest.approx(0.06, abs=1e-5)
    assert true.head_rise_m["impact"] == pytest.approx(0.02, abs=1e-5)
    assert true.tempo == pytest.approx(STYLE.backswing_s / STYLE.downswing_s, rel=0.01)


def test_hands_pushed_out_going_back_are_out_by_that_much(true: TrueSwing) -> None:
    pushed = SwingMotion(load_body("adult_male", 1.80), replace(STYLE, hands_out_m=0.05))
    further_m = true_swing(pushed).hands_out_m["P2"] - true.hands_out_m["P2"]
    assert further_m == pytest.approx(0.05, abs=0.012)


def test_a_second_swings_times_are_the_clips(swing: SwingMotion) -> None:
    wait = standing_still(swing, 1.5)
    take = OneAfterAnother((wait, swing))
    (zero_s, found), *_ = take.swings
    alone, shifted = true_swing(swing), true_swing(found, 1, zero_s)
    for name, at_s in alone.checkpoints_s.items():
        assert shifted.checkpoints_s[name] == pytest.approx(at_s + 1.5)


def test_truth_is_said_in_lead_and_trail_for_a_left_hander_too(swing: SwingMotion) -> None:
    right = Shot(swing.body, Camera(), fps=5.0)
    left = replace(right, camera=Camera(handedness=Handedness.LEFT))
    one, other = (truth_of("a", "b", shot, swing) for shot in (right, left))
    assert one.swings == other.swings
    for a, b in zip(one.frames, other.frames, strict=True):
        lead_a, lead_b = a.px("lead_knee"), b.px("lead_knee")
        assert lead_a is not None
        assert lead_b is not None
        assert lead_b[0] == pytest.approx(1279 - lead_a[0], abs=0.11)
        assert a.metres("lead_knee") == b.metres("lead_knee")


def test_a_mirrored_picture_moves_the_pixels_only(swing: SwingMotion) -> None:
    shot = Shot(swing.body, Camera(yaw_deg=2.0), fps=5.0)
    plain, flipped = (
        truth_of("a", "b", replace(shot, mirrored=mirrored), swing) for mirrored in (False, True)
    )
    a, b = plain.frames[3].px("club_head"), flipped.frames[3].px("club_head")
    assert a is not None
    assert b is not None
    assert b[0] == pytest.approx(1279 - a[0], abs=0.11)
    assert plain.frames[3].points_m == flipped.frames[3].points_m


def test_a_sidecar_reads_back_as_it_was_written(swing: SwingMotion, tmp_path: Path) -> None:
    truth = truth_of("a", "b", Shot(swing.body, Camera(), fps=10.0), swing)
    path = tmp_path / "a.truth.json"
    write_truth(path, truth)
    assert read_truth(path) == truth
    with pytest.raises(OutputError, match=r"a\.truth\.json"):
        write_truth(path, truth)


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"version": 99, "points": []}'])
def test_what_is_no_truth_file_is_refused(text: str, tmp_path: Path) -> None:
    path = tmp_path / "wrong.truth.json"
    path.write_text(text)
    with pytest.raises(RecordingError, match=r"wrong\.truth\.json"):
        read_truth(path)


def test_a_sidecar_is_plain_json(swing: SwingMotion, tmp_path: Path) -> None:
    path = tmp_path / "a.truth.json"
    write_truth(path, truth_of("a", "b", Shot(swing.body, Camera(), fps=5.0), swing))
    document = json.loads(path.read_text())
    assert document["version"] == 2
    assert document["swings"][0]["knee_past_ankle_m"]["P6"] == pytest.approx(0.06, abs=1e-5)


def test_a_file_from_before_the_tracks_is_read_and_has_none(
    swing: SwingMotion, tmp_path: Path
) -> None:
    path = tmp_path / "old.truth.json"
    write_truth(path, truth_of("a", "b", Shot(swing.body, Camera(), fps=5.0), swing))
    document = json.loads(path.read_text())
    document["version"] = 1
    for each in document["swings"]:
        del each["tracks"], each["wholes"]
    path.write_text(json.dumps(document))
    (old,) = read_truth(path).swings
    assert (old.tracks, old.wholes) == ({}, {})
    assert old.knee_past_ankle_m["P6"] == pytest.approx(0.06, abs=1e-5)
