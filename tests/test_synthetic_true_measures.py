"""The truth of every measure, against geometry worked by hand on a figure that stands still."""

from collections.abc import Callable
from functools import cache

import numpy as np
import pytest

from baycue.bench.truths import true_answer
from baycue.measures.catalogue import measures
from baycue.measures.when import Extreme, When
from baycue.swing.swing import CheckpointName
from baycue.synthetic.body import load_body
from baycue.synthetic.rig import Rig
from baycue.synthetic.rotations import about_x
from baycue.synthetic.scene import ClubPose
from baycue.synthetic.skeleton import Skeleton
from baycue.synthetic.swing_motion import SwingMotion
from baycue.synthetic.swing_style import SwingStyle
from baycue.synthetic.true_measures import TRUE_READINGS, Stand
from baycue.synthetic.true_tracks import TrueTrack, largest, lowest_before_s, true_tracks
from baycue.synthetic.truth import TrueSwing, true_swing

P6, TOP, IMPACT = CheckpointName.P6, CheckpointName.TOP, CheckpointName.IMPACT
PLACES = {
    "upperarm_l": (0.2, 1.4, 0.1),
    "upperarm_r": (-0.2, 1.4, 0.1),
    "lowerarm_l": (0.1, 1.1, 0.3),
    "lowerarm_r": (-0.3, 1.1, 0.4),
    "hand_l": (-0.1, 0.9, 0.4),
    "hand_r": (-0.1, 0.8, 0.3),
    "thigh_l": (0.1, 0.9, -0.1),
    "thigh_r": (-0.1, 0.9, -0.1),
    "calf_l": (0.3, 0.5, 0.1),
    "calf_r": (-0.2, 0.5, 0.1),
    "foot_l": (0.25, 0.1, 0.0),
}
"""Joints, metres: x to the target, y up, z to the ball."""


@cache
def rig() -> Rig:
    return Rig(load_body("adult_male", 1.80))


def standing(
    by: tuple[float, float, float] = (0.0, 0.0, 0.0), foot: np.ndarray | None = None
) -> Stand:
    """The figure, all of it moved ``by``, with a shaft level and pointing away from the target."""
    skeleton, shift = Skeleton(rig()), np.array(by)
    for bone, place in PLACES.items():
        turn = foot if foot is not None and bone == "foot_l" else np.eye(3)
        skeleton.place(bone, np.array(place) + shift, turn)
    skeleton.place("head", skeleton.head_of("head") + shift, np.eye(3))
    butt = np.array([0.05, 0.85, 0.35]) + shift
    return Stand(skeleton, ClubPose(butt, butt - np.array([1.0, 0.0, 0.0]), np.array([0, 0, 1.0])))


@pytest.mark.parametrize(
    ("measure", "true"),
    [
        ("knee past ankle", 0.3 - 0.25),
        ("lead arm angle", 90.0 - np.degrees(np.arctan(0.3 / 0.5))),
        # The forearm points 0.2 back and 0.2 down: -45 deg; the shaft -90.
        ("wrist angle", 45.0),
        ("butt to buckle", 0.05),
        # The trail thigh leans 0.1 back on 0.4; a place 0.15 ahead of the hip and 0.05 lower.
        ("butt to trail thigh", (0.15 * 0.4 + 0.05 * 0.1) / np.hypot(0.1, 0.4)),
        # Trail shoulder to hip goes 0.1 ahead on 0.5 down; the elbow is 0.1 back and 0.3 down.
        ("trail elbow to side", (0.1 * 0.5 + 0.3 * 0.1) / np.hypot(0.1, 0.5)),
        ("elbow separation", 0.4),
        ("hand path radius", np.hypot(0.1, 0.55)),
        ("handle lean", 90.0),
        # Thigh (0.2, -0.4, 0.2), shank (-0.05, -0.4, -0.1).
        (
            "lead knee bend",
            np.degrees(
                np.arccos((-0.01 + 0.16 - 0.02) / np.sqrt(0.24) / np.sqrt(0.0025 + 0.16 + 0.01))
            ),
        ),
    ],
)
def test_a_still_figure_measures_what_its_geometry_says(measure: str, true: float) -> None:
    assert TRUE_READINGS[measure](standing(), standing()) == pytest.approx(true, abs=1e-9)


@pytest.mark.parametrize(
    ("measure", "moved"),
    [
        ("knee travel", 0.03),
        ("head rise", 0.05),
        ("head sway", 0.03),
        ("upper centre", 0.03),
        ("lower centre", 0.03),
        ("pelvis height", 0.05),
        ("lead heel height", 0.05),
        ("hand path out", 0.07),
    ],
)
def test_what_counts_from_address_is_how_far_it_has_gone(measure: str, moved: float) -> None:
    address, now = standing(), standing((0.03, 0.05, 0.07))
    assert TRUE_READINGS[measure](now, address) == pytest.approx(moved, abs=1e-9)
    assert TRUE_READINGS[measure](address, address) == 0.0


def test_centres_past_the_heel_count_from_where_the_heel_stood_at_address() -> None:
    address, now = standing(), standing((0.03, 0.0, 0.0))
    for measure in ("upper centre past heel", "lower centre past heel"):
        before, after = (TRUE_READINGS[measure](s, address) for s in (address, now))
        assert after - before == pytest.approx(0.03)


def test_a_foot_turned_about_its_ankle_by_a_right_angle_swings_the_heel_up() -> None:
    """The heel lies behind the ankle and below it: a quarter turn lifts it by both together."""
    flat, raised = standing(), standing(foot=np.asarray(about_x(90.0)))
    lifted = TRUE_READINGS["lead heel height"](raised, flat)
    assert 0.06 < lifted < 0.16


def test_every_truth_is_of_a_measure_in_the_catalogue() -> None:
    known = set(TRUE_READINGS) | set(swing_truth().wholes)
    assert known <= {measure.name for measure in measures()}
    assert len(known) >= 22


@cache
def motion() -> SwingMotion:
    return SwingMotion(load_body("adult_male", 1.80), SwingStyle())


@cache
def swing_truth() -> TrueSwing:
    return true_swing(motion())


def test_tracks_agree_with_the_truths_that_were_there_before() -> None:
    true = swing_truth()
    for track, old in (
        ("knee past ankle", true.knee_past_ankle_m),
        ("head rise", true.head_rise_m),
    ):
        assert true.tracks[track].at == pytest.approx(old, abs=1e-6)
    assert true.wholes["tempo"] == true.tempo


def test_an_extreme_between_two_looks_is_that_of_the_curve() -> None:
    times = np.arange(0.0, 1.0, 0.004)
    assert largest(times, np.sin(3.0 * times), 0, len(times) - 1) == pytest.approx(1.0, abs=1e-7)
    assert largest(times, times**2, 0, 100) == pytest.approx(0.4**2)


def test_the_largest_over_a_span_is_no_less_than_at_any_moment_in_it() -> None:
    true, swing = swing_truth(), motion()
    track = true.tracks["hand path radius"]
    address = Stand(*swing.golfer_at(true.checkpoints_s["address"]))
    read = TRUE_READINGS["hand path radius"]
    times = np.linspace(true.checkpoints_s["top"], true.checkpoints_s["P6"], 60)
    values = [read(Stand(*swing.golfer_at(t)), address) for t in times]
    assert max(values) <= track.largest_over("top", "P6") + 1e-5
    assert track.largest_over("top", "P6") == pytest.approx(max(values), abs=1e-3)
    assert track.least_over("top", "P6") == pytest.approx(min(values), abs=1e-3)


def test_a_span_runs_forward() -> None:
    with pytest.raises(ValueError, match="top does not come after P6"):
        swing_truth().tracks["head rise"].largest_over("P6", "top")


def test_angles_go_on_past_a_half_turn() -> None:
    track = swing_truth().tracks["handle lean"]
    assert track.at["top"] > 180.0
    assert track.largest_over("P3", "top") == pytest.approx(track.at["top"], abs=0.2)


def sinking(depth_m: Callable[[float], float]) -> Callable[[float], Stand]:
    return lambda t: standing((0.0, -depth_m(t), 0.0))


def test_the_pelvis_is_lowest_where_it_turns() -> None:
    turned_at_s = 0.1337
    found = lowest_before_s(sinking(lambda t: 0.02 - (t - turned_at_s) ** 2), 0.0, 0.25)
    assert found == pytest.approx(0.25 - turned_at_s, abs=1e-6)
    assert lowest_before_s(sinking(lambda t: t), 0.0, 0.25) == 0.0


def test_tracks_of_a_figure_that_sinks_evenly_are_its_depth() -> None:
    times = {name: 0.1 * k for k, name in enumerate(CheckpointName)}
    track = true_tracks(sinking(lambda t: t), times)["pelvis height"]
    assert track.at["P2"] == pytest.approx(-0.2)
    assert track.least_over("address", "P3") == pytest.approx(-0.3)
    assert track.change("P2", "P6") == pytest.approx(-0.4)


def test_answers_follow_what_is_asked() -> None:
    track = TrueTrack(
        at={"address": 0.5, "top": 1.0, "P5": 2.0, "P6": 1.5, "impact": -3.0},
        least={"top": 0.9, "P5": 1.4, "P6": -3.1},
        largest={"top": 2.0, "P5": 2.2, "P6": 1.5},
    )
    true = TrueSwing(1, {}, {}, {}, {}, {}, {}, {}, 3.0, 40.0, {"m": track}, {"w": 0.2})

    def answer(when: When) -> float:
        return true_answer(true, "m", when)

    assert true_answer(true, "w", When()) == 0.2
    assert answer(When(P6, P6)) == 1.5
    assert answer(When(TOP, P6)) == 0.5
    assert answer(When(TOP, P6, Extreme.LARGEST)) == 2.2
    assert answer(When(TOP, IMPACT, Extreme.LEAST)) == -3.1
    assert answer(When(TOP, IMPACT, Extreme.FURTHEST)) == -3.1
    assert answer(When(TOP, P6, Extreme.LARGEST, CheckpointName.ADDRESS)) == pytest.approx(1.7)
