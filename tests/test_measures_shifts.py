"""Shifts of knee, head and centres along the target line, and rises of pelvis and heel.

Joints are moved in the picture by so many of the scale's pixels to a metre, so that the right
answers are known without a measure.
"""

import numpy as np
import pytest

from baycue.measures.evidence import SwingEvidence
from baycue.measures.scale import scale_of
from baycue.measures.when import Extreme, When
from baycue.plan.stance import Handedness, View
from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Side
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of
from tests.posed_golfer import at, placed, stepped, take
from tests.stick_golfer import down_the_line

ADDRESS, TOP, P6, IMPACT = (CheckpointName(n) for n in ("address", "top", "P6", "impact"))
EARS = (Landmark.LEFT_EAR, Landmark.RIGHT_EAR)
SHOULDERS, HIPS = (LEFT.shoulder, RIGHT.shoulder), (LEFT.hip, RIGHT.hip)
WAYS_ROUND = [
    Filmed(),
    Filmed(mirrored=True),
    Filmed(handedness=Handedness.LEFT),
    Filmed(handedness=Handedness.LEFT, mirrored=True),
]


def lead(evidence: SwingEvidence) -> Side:
    return evidence.stance.lead


def moved_joints(name: str, evidence: SwingEvidence) -> tuple[Landmark, ...]:
    """The joints that a measure follows."""
    return {
        "knee travel": (lead(evidence).knee,),
        "head sway": EARS,
        "upper centre": SHOULDERS,
        "lower centre": HIPS,
        "pelvis height": HIPS,
        "lead heel height": (lead(evidence).heel,),
    }[name]


ALONG = ("knee travel", "head sway", "upper centre", "lower centre")
UP = ("pelvis height", "lead heel height")


@pytest.mark.parametrize("filmed", WAYS_ROUND, ids=["right", "mirrored", "left", "left mirrored"])
@pytest.mark.parametrize("name", ALONG)
def test_toward_the_target_is_positive_whichever_way_round(name: str, filmed: Filmed) -> None:
    evidence = evidence_of(filmed)
    gone = stepped(evidence, moved_joints(name, evidence), toward_m=0.04, up_m=0.0)
    assert take(name, gone, at(P6)).value == pytest.approx(0.04, abs=0.002)
    assert take(name, gone, at(TOP)).value == pytest.approx(0.04, abs=0.002)
    assert take(name, gone, When(TOP, P6)).value == pytest.approx(0.0, abs=0.002)


@pytest.mark.parametrize("name", UP)
def test_up_is_positive(name: str) -> None:
    evidence = evidence_of(Filmed())
    risen = stepped(evidence, moved_joints(name, evidence), toward_m=0.0, up_m=0.03)
    assert take(name, risen, at(IMPACT)).value == pytest.approx(0.03, abs=0.002)
    level = stepped(evidence, moved_joints(name, evidence), toward_m=0.05, up_m=0.0)
    assert take(name, level, at(IMPACT)).value == pytest.approx(0.0, abs=0.002)


def test_the_pelvis_height_is_told_down_the_line_too() -> None:
    evidence = evidence_of(Filmed(camera=down_the_line(), view=View.DOWN_THE_LINE))
    risen = stepped(evidence, HIPS, toward_m=0.0, up_m=-0.04)
    assert take("pelvis height", risen, at(IMPACT)).value == pytest.approx(-0.04, abs=0.002)


def test_a_head_that_sways_and_comes_back_swayed_at_some_time() -> None:
    """Half a sine of 5 cm away from the target between takeaway and impact."""
    evidence = evidence_of(Filmed())
    px_per_m, sway = scale_of(evidence).px_per_m, 0.05
    start = evidence.swing.at(CheckpointName.TAKEAWAY)
    end = evidence.swing.at(IMPACT)
    assert start
    assert end
    lasts_ns, since_ns = end.time_ns - start.time_ns, start.time_ns

    def away(pose: Pose) -> dict[Landmark, FloatArray]:
        share = np.clip((pose.stamp_ns - since_ns) / lasts_ns, 0, 1)
        step_px = np.array([-px_per_m * sway * np.sin(np.pi * share), 0.0])
        return {ear: pose.pixel(ear) + step_px for ear in EARS}

    swayed, furthest = placed(evidence, away), When(ADDRESS, IMPACT, Extreme.FURTHEST)
    assert take("head sway", swayed, furthest).value == pytest.approx(-sway, abs=0.004)
    assert take("head sway", swayed, at(IMPACT)).value == pytest.approx(0.0, abs=0.004)


@pytest.mark.parametrize("filmed", WAYS_ROUND[:2], ids=["right", "mirrored"])
@pytest.mark.parametrize(
    ("name", "joints"), [("upper centre past heel", SHOULDERS), ("lower centre past heel", HIPS)]
)
def test_centres_are_counted_from_where_the_lead_heel_stood(
    name: str, joints: tuple[Landmark, ...], filmed: Filmed
) -> None:
    """The stick golfer stands in the middle between ankles 44 cm apart, so 22 cm behind."""
    evidence = evidence_of(filmed)
    assert take(name, evidence, at(ADDRESS)).value == pytest.approx(-0.22, abs=0.02)
    gone = stepped(evidence, joints, toward_m=0.05, up_m=0.0)
    before, after = (take(name, e, at(P6)).value for e in (evidence, gone))
    assert after - before == pytest.approx(0.05, abs=0.002)
    lifted = stepped(evidence, (lead(evidence).heel,), toward_m=0.06, up_m=0.03)
    assert take(name, lifted, at(P6)).value == pytest.approx(before, abs=1e-9)


def test_at_the_top_a_turned_body_is_less_sure() -> None:
    evidence = evidence_of(Filmed())
    for name in ("head sway", "upper centre", "pelvis height"):
        top, impact = (take(name, evidence, at(c)).sigma for c in (TOP, IMPACT))
        assert top > 1.5 * impact


DIP_S, DIP_M = 0.17, 0.04


def test_down_before_up_is_how_long_before_impact_the_pelvis_is_lowest() -> None:
    """The hips go down and up again along a parabola, lowest 0.17 s after the top."""
    evidence = evidence_of(Filmed())
    px_per_m = scale_of(evidence).px_per_m
    top, impact = evidence.swing.at(TOP), evidence.swing.at(IMPACT)
    assert top
    assert impact
    top_ns = top.time_ns

    def dipped(pose: Pose) -> dict[Landmark, FloatArray]:
        since_s = (pose.stamp_ns - top_ns) * 1e-9
        dip_m = DIP_M * (1 - ((since_s - DIP_S) / DIP_S) ** 2)
        return {hip: pose.pixel(hip) + np.array([0.0, px_per_m * dip_m]) for hip in HIPS}

    got = take("down before up", placed(evidence, dipped, top_ns), When())
    before_s = (impact.time_ns - top_ns) * 1e-9 - DIP_S
    assert got.value == pytest.approx(before_s, abs=0.01)
    assert 0.005 < got.sigma < 0.06


def test_a_pelvis_that_never_moves_was_lowest_nobody_knows_when() -> None:
    got = take("down before up", evidence_of(Filmed()), When())
    assert got.sigma > 0.06
