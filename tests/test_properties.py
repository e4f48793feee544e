"""What holds of every measure and verdict: mirrors, clocks, picture sizes, lost frames, bounds."""

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from baycue.measures.catalogue import measures
from baycue.measures.evidence import SwingEvidence
from baycue.measures.measure import Measure
from baycue.measures.measurement import Measurement, NotMeasuredError, Unit
from baycue.measures.when import When
from baycue.plan.stance import Handedness, View
from baycue.plan.target import USUAL_BAND, Target
from baycue.pose.pose import Pose
from baycue.swing.swing import CheckpointName
from baycue.verdict.judge import judge_target
from baycue.verdict.verdict import Outcome
from tests.canned_evidence import Filmed, as_drawn, evidence_of

P6 = CheckpointName.P6
FACE_ON = [m for m in measures() if View.FACE_ON in m.views]
slowly = settings(
    max_examples=12, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)


def taken(measure: Measure, evidence: SwingEvidence) -> Measurement | str:
    """At P6, or of the whole swing; the reason where it cannot be."""
    try:
        return measure.take(evidence, When() if measure.whole else When(P6, P6))
    except NotMeasuredError as reason:
        return str(reason)


def alike(one: Measurement | str, other: Measurement | str, within: float = 1e-6) -> bool:
    if isinstance(one, str) or isinstance(other, str):
        return one == other
    return bool(
        np.allclose((one.value, one.sigma), (other.value, other.sigma), rtol=within, atol=within)
    )


def scaled(pose: Pose, by: float) -> Pose:
    return replace(pose, pixels=pose.pixels * by)


@pytest.mark.parametrize("measure", FACE_ON, ids=lambda m: m.name)
def test_a_mirrored_swing_measures_the_same(measure: Measure) -> None:
    """A left-hander's swing, and a right-hander's in a mirrored picture, is the mirror image."""
    right = taken(measure, as_drawn(evidence_of(Filmed()), measure.name))
    for mirror in (Filmed(handedness=Handedness.LEFT), Filmed(mirrored=True)):
        # The mirror turns about the middle pixel, the camera's axis is half a pixel off it.
        seen = as_drawn(evidence_of(mirror), measure.name)
        assert alike(taken(measure, seen), right, within=2e-3)


@pytest.mark.parametrize("measure", FACE_ON, ids=lambda m: m.name)
@given(shift_s=st.integers(-3600, 10**6))
@slowly
def test_when_it_was_filmed_changes_nothing(measure: Measure, shift_s: int) -> None:
    evidence, by = evidence_of(Filmed()), shift_s * 10**9
    later = replace(
        evidence,
        swing=replace(
            evidence.swing,
            checkpoints=tuple(
                replace(c, time_ns=c.time_ns + by) for c in evidence.swing.checkpoints
            ),
        ),
        poses=tuple(replace(p, stamp_ns=p.stamp_ns + by) for p in evidence.poses),
        shaft=tuple(replace(r, stamp_ns=r.stamp_ns + by) for r in evidence.shaft),
    )
    # Seconds since long ago have nanoseconds left in a float, which turn a shaft by 1e-6 deg.
    assert alike(taken(measure, later), taken(measure, evidence), within=1e-4)


@pytest.mark.parametrize("measure", FACE_ON, ids=lambda m: m.name)
@given(by=st.sampled_from([0.5, 0.75, 1.5, 2.0]))
@slowly
def test_the_pictures_size_changes_nothing_in_metres_and_degrees(
    measure: Measure, by: float
) -> None:
    evidence = evidence_of(Filmed())
    camera = evidence.camera
    size = round(camera.width_px * by), round(camera.height_px * by)
    finer = replace(
        evidence,
        camera=replace(camera, width_px=size[0], height_px=size[1]),
        poses=tuple(scaled(p, by) for p in evidence.poses),
    )
    assert alike(taken(measure, finer), taken(measure, evidence), within=1e-6)


@given(
    value=st.floats(-0.3, 0.3),
    bound_mm=st.integers(-200, 200),
    sigma=st.floats(0.0, 0.05),
    at_least=st.booleans(),
)
@settings(deadline=None)
def test_a_bound_moved_past_the_value_flips_a_called_answer(
    value: float, bound_mm: int, sigma: float, at_least: bool
) -> None:
    """Moved by twice the margin, the value lies as far on the other side."""
    key = "at_least" if at_least else "at_most"
    measured = Measurement("knee past ankle", value, sigma, Unit.METRE)

    def answer(bound_m: float) -> Outcome:
        asked = {"measure": "knee past ankle", "at": "P6", key: f"{bound_m:.9f} m"}
        return judge_target(Target.model_validate(asked), measured).outcome

    bound = bound_mm / 1000
    first, moved = answer(bound), answer(2 * value - bound)
    margin, spread = abs(value - bound), USUAL_BAND * sigma
    if margin > spread + 1e-6:
        assert {first, moved} == {Outcome.PASS, Outcome.FAIL}
    elif margin < spread - 1e-6:
        assert first is moved is Outcome.TOO_CLOSE


@pytest.mark.parametrize("measure", FACE_ON, ids=lambda m: m.name)
@given(share=st.floats(0.0, 1.0))
@slowly
def test_any_one_pose_may_be_missing(measure: Measure, share: float) -> None:
    """The value stays within the one-sigma that was stated with all of them."""
    evidence = evidence_of(Filmed())
    gone = round(share * (len(evidence.poses) - 1))
    left = replace(evidence, poses=tuple(p for k, p in enumerate(evidence.poses) if k != gone))
    whole, without = taken(measure, evidence), taken(measure, left)
    if isinstance(whole, str) or isinstance(without, str):
        assert isinstance(whole, str) == isinstance(without, str)
        return
    assert abs(without.value - whole.value) <= max(whole.sigma, without.sigma)
