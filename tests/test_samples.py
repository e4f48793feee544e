"""The main job on every sample recording, through the real pose model, against its truth.

The recordings are synthetic and say so; their truth is exact.  The bounds on P6, impact,
knee and head are the project's own goals.
"""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

import pytest

from baycue.measures.catalogue import measures
from baycue.measures.when import When
from baycue.plan.load import load_plan
from baycue.plan.stance import View
from baycue.recording import ScoredRecording, score_recording
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.synthetic.truth import TrueSwing
from baycue.synthetic.truth_file import Truth, read_truth
from baycue.verdict.verdict import Outcome

HOME = Path(__file__).parents[1]
SAMPLES = HOME / "sample_recordings"
KNEE_WITHIN_M, HEAD_WITHIN_M = 0.015, 0.010
P6_WITHIN_S = {30: 0.008, 60: 0.005, 120: 0.003}
DECIDED_WITHIN_S = 0.100

PASS, FAIL = Outcome.PASS, Outcome.FAIL


@dataclass(frozen=True)
class Case:
    """A sample, the plan it is scored against, and the answers its truth demands."""

    name: str
    plan: str
    outcomes: tuple[Outcome, ...]


CASES = (
    Case("knee_pass_30fps", "right_hander_knee_head_tempo", (PASS,)),
    Case("knee_fail_30fps", "right_hander_knee_head_tempo", (FAIL,)),
    Case("head_rise_30fps", "tall_right_hander_head", (FAIL,)),
    Case("left_handed_30fps", "left_hander_knee", (PASS,)),
    Case("mirrored_30fps", "mirrored_webcam", (FAIL,)),
    Case("driver_30fps", "driver_knee_and_tempo", (PASS,)),
    Case("wedge_60fps", "wedge_knee", (PASS,)),
    Case("knee_fail_120fps", "tall_right_hander_head", (FAIL,)),
    Case("down_the_line_30fps", "down_the_line_head", (PASS,)),
    Case("two_swings_30fps", "right_hander_knee_head_tempo", (FAIL, PASS)),
    Case("no_swing_30fps", "right_hander_knee_head_tempo", ()),
    Case("tee_and_rehearsal_30fps", "driver_knee_and_tempo", ()),
)
FACE_ON = tuple(c for c in CASES if c.outcomes and not c.name.startswith("down"))
STRUCK = tuple(c for c in CASES if c.outcomes)
BARELY = Case("slow_shutter_30fps", "right_hander_knee_head_tempo", (PASS,))
"""Its knee is only 1 cm over the bound: too close to call is right too, fail is not."""


@cache
def scored(case: Case) -> ScoredRecording:
    plan = load_plan(HOME / "configs" / f"{case.plan}.yaml")
    return score_recording(SAMPLES / f"{case.name}.mp4", plan)


@cache
def truth(case: Case) -> Truth:
    return read_truth(SAMPLES / f"{case.name}.truth.json")


def each(cases: tuple[Case, ...]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("case", cases, ids=lambda case: case.name)


def checkpoint(case: Case, number: int, name: CheckpointName) -> Checkpoint:
    found = scored(case).swings[number].evidence.swing.at(name)
    assert found is not None, name
    return found


def late_s(case: Case, number: int, name: CheckpointName) -> float:
    true_s = truth(case).swings[number].checkpoints_s[name.value]
    return checkpoint(case, number, name).time_ns * 1e-9 - true_s


def numbered(case: Case) -> list[tuple[int, TrueSwing]]:
    return list(enumerate(truth(case).swings))


@each((*CASES, BARELY))
def test_every_swing_is_found_and_no_other(case: Case) -> None:
    assert len(scored(case).swings) == len(truth(case).swings) == len(case.outcomes)


@each(STRUCK)
def test_the_verdict_is_the_one_that_the_truth_demands(case: Case) -> None:
    assert tuple(s.verdict.outcome for s in scored(case).swings) == case.outcomes


def test_a_margin_that_cannot_be_resolved_is_never_called_wrong() -> None:
    assert scored(BARELY).swings[0].verdict.outcome in (PASS, Outcome.TOO_CLOSE)


@each((*FACE_ON, BARELY))
def test_p6_is_found_between_frames(case: Case) -> None:
    fps = round(truth(case).fps)
    for number, _ in numbered(case):
        assert abs(late_s(case, number, CheckpointName.P6)) <= P6_WITHIN_S[fps]


@each((*STRUCK, BARELY))
def test_impact_is_within_half_a_frame(case: Case) -> None:
    for number, _ in numbered(case):
        assert abs(late_s(case, number, CheckpointName.IMPACT)) <= 0.5 / truth(case).fps


@each((*FACE_ON, BARELY))
def test_the_other_checkpoints_are_within_a_frame_or_their_own_spread(case: Case) -> None:
    for number, _ in numbered(case):
        for name in (CheckpointName.P2, CheckpointName.TOP, CheckpointName.P5, CheckpointName.P8):
            spread_s = 3 * checkpoint(case, number, name).sigma_ns * 1e-9
            assert abs(late_s(case, number, name)) <= max(1 / truth(case).fps, spread_s), name


@each((*STRUCK, BARELY))
def test_measures_are_near_the_truth_and_say_how_near(case: Case) -> None:
    for number, true in numbered(case):
        expected = {
            "knee past ankle": (true.knee_past_ankle_m["P6"], KNEE_WITHIN_M),
            "head rise": (_head_rise_m(case, true), HEAD_WITHIN_M),
        }
        for answer in scored(case).swings[number].verdict.targets:
            measured = answer.measurement
            assert measured is not None
            if measured.measure in expected:
                value, within = expected[measured.measure]
                assert abs(measured.value - value) <= within, answer.reason
                assert abs(measured.value - value) <= 3 * measured.sigma, answer.reason


@each((*FACE_ON, BARELY))
@pytest.mark.parametrize("moment", [CheckpointName.P6, CheckpointName.IMPACT])
def test_every_measure_is_within_three_of_its_own_spreads(
    case: Case, moment: CheckpointName
) -> None:
    for number, true in numbered(case):
        evidence = scored(case).swings[number].evidence
        assert len(true.tracks) > 15
        for measure in measures():
            if measure.track is None or View.FACE_ON not in measure.views:
                continue
            got = measure.take(evidence, When(moment, moment))
            off = abs(got.value - true.tracks[measure.name].at[moment.value])
            assert off <= 3 * got.sigma, f"{measure.name}: {got.value:.3f}, off by {off:.3f}"


def _head_rise_m(case: Case, true: TrueSwing) -> float:
    """The down-the-line plan counts from the top, the others from address."""
    start = "top" if case.plan.startswith("down") else "address"
    return true.head_rise_m["impact"] - true.head_rise_m[start]


@each((*STRUCK, BARELY))
def test_the_verdict_looks_no_further_than_a_tenth_of_a_second_past_impact(case: Case) -> None:
    for number, true in numbered(case):
        decided_s = scored(case).swings[number].decided_ns * 1e-9
        assert decided_s - true.checkpoints_s["impact"] <= DECIDED_WITHIN_S


def test_the_pass_and_the_fail_differ_by_at_least_a_fiftieth_of_stature() -> None:
    good, poor = (truth(case).swings[0].knee_past_ankle_m["P6"] for case in CASES[:2])
    assert good - poor >= 0.02 * truth(CASES[0]).stature_m


def test_the_samples_are_small_enough_to_ship() -> None:
    assert sum(f.stat().st_size for f in SAMPLES.iterdir()) <= 25e6
