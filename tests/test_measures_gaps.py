"""Gaps and distances: butt, thigh, elbows and hands, with places set by hand."""

from collections.abc import Callable

import numpy as np
import pytest

from baycue.measures.butt import BUTT_BEHIND_HANDS_M, butt_px, hands_px
from baycue.measures.evidence import SwingEvidence
from baycue.measures.scale import scale_of
from baycue.measures.when import Extreme, When
from baycue.plan.stance import Handedness
from baycue.pose.pose import FloatArray, Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT
from baycue.swing.swing import CheckpointName
from tests.canned_evidence import Filmed, evidence_of
from tests.posed_golfer import at, held, placed, swung, take
from tests.stick_golfer import ARM_SHARE, SHOULDER_HALF_SHARE, StickGolfer

ADDRESS, TOP, P6 = (CheckpointName(n) for n in ("address", "top", "P6"))
RIGHT_HANDER, LEFT_HANDER = Filmed(), Filmed(handedness=Handedness.LEFT)
MOMENTS = {"takeaway": -0.3, "top": -0.1, "P6": 0.1}


def still(arm_deg: float, shaft_deg: float) -> SwingEvidence:
    """A golfer who keeps still."""
    return swung(held(arm_deg, shaft_deg), MOMENTS)


def beside(
    evidence: SwingEvidence, landmark: Landmark, of: Callable[[Pose], FloatArray], by_m: FloatArray
) -> SwingEvidence:
    """A landmark put so many metres (toward the target, up) from another place of the picture."""
    px_per_m = scale_of(evidence).px_per_m
    step = px_per_m * by_m * [evidence.stance.toward_target, -1]
    return placed(evidence, lambda p: {landmark: of(p) + step})


@pytest.mark.parametrize(
    ("shaft_deg", "toward_m", "up_m"),
    [(-90.0, 0.10, 0.0), (0.0, 0.0, 0.10), (90.0, -0.10, 0.0), (-180.0, 0.0, -0.10)],
)
def test_the_butt_is_back_along_the_shaft(shaft_deg: float, toward_m: float, up_m: float) -> None:
    evidence = still(0.0, shaft_deg)
    scale = scale_of(evidence)
    back = (butt_px(evidence, scale) - hands_px(evidence))[len(evidence.poses) // 2]
    assert back == pytest.approx(scale.px_per_m * np.array([toward_m, -up_m]), abs=1.0)
    assert pytest.approx(0.10) == BUTT_BEHIND_HANDS_M


@pytest.mark.parametrize("by_m", [-0.05, 0.0, 0.08])
def test_butt_to_buckle_is_hands_and_ten_centimetres_against_mid_hip(by_m: float) -> None:
    """The arm upright, the shaft parallel on the trail side: hands that hang 10 cm behind the
    buckle put the butt on it.  Square to a camera the stick golfer's depth is nothing.
    """
    evidence = still(0.0, -90.0)
    hands = hands_px(evidence)
    px_per_m = scale_of(evidence).px_per_m
    hips_px = hands[0, 0] + px_per_m * (BUTT_BEHIND_HANDS_M - by_m)

    def hips(pose: Pose) -> dict[Landmark, FloatArray]:
        shift = hips_px - pose.pixels[[LEFT.hip, RIGHT.hip], 0].mean()
        return {h: pose.pixel(h) + np.array([shift, 0.0]) for h in (LEFT.hip, RIGHT.hip)}

    got = take("butt to buckle", placed(evidence, hips), at(P6))
    assert got.value == pytest.approx(by_m, abs=0.02)
    assert got.sigma > 0.03


def test_butt_to_trail_thigh_is_square_to_the_thighs_line() -> None:
    """Hip and knee 30 and 40 cm apart make a slope of 3 in 4; 15 cm level from it is 12 square."""
    evidence = still(0.0, -90.0)
    px_per_m = scale_of(evidence).px_per_m
    butt = butt_px(evidence, scale_of(evidence))[0]
    hip = butt - [0.15 * px_per_m, 0.0]

    def thigh(_pose: Pose) -> dict[Landmark, FloatArray]:
        return {RIGHT.hip: hip, RIGHT.knee: hip + px_per_m * np.array([-0.3, 0.4])}

    got = take("butt to trail thigh", placed(evidence, thigh), at(P6))
    assert got.value == pytest.approx(0.12, abs=0.003)


@pytest.mark.parametrize("filmed", [RIGHT_HANDER, LEFT_HANDER], ids=["right", "left"])
@pytest.mark.parametrize("out_m", [0.0, 0.06, 0.15])
def test_the_trail_elbow_is_so_far_from_the_side(filmed: Filmed, out_m: float) -> None:
    """Trail shoulder and hip one above the other, the elbow level from half-way between."""
    evidence = evidence_of(filmed)
    trail, px_per_m = evidence.stance.trail, scale_of(evidence).px_per_m

    def side(pose: Pose) -> dict[Landmark, FloatArray]:
        hip = pose.pixel(trail.hip)
        shoulder = hip - [0.0, 0.5 * px_per_m]
        out = np.array([-out_m * px_per_m * evidence.stance.toward_target, 0.0])
        return {trail.shoulder: shoulder, trail.elbow: (hip + shoulder) / 2 + out}

    since = evidence.swing.at(TOP)
    assert since
    got = take("trail elbow to side", placed(evidence, side, since.time_ns), at(P6))
    assert got.value == pytest.approx(out_m, abs=0.002)


def test_elbows_30_and_40_centimetres_apart_are_50_apart() -> None:
    evidence = evidence_of(RIGHT_HANDER)
    lead, trail = evidence.stance.lead, evidence.stance.trail
    apart = beside(evidence, lead.elbow, lambda p: p.pixel(trail.elbow), np.array([0.4, 0.3]))
    assert take("elbow separation", apart, at(P6)).value == pytest.approx(0.5, abs=0.003)


@pytest.mark.parametrize("stature_m", [1.6, 1.78, 1.95])
def test_the_hands_hang_an_arm_below_shoulders_of_the_textbooks_size(stature_m: float) -> None:
    """Arm .332 and half the shoulders .1295 of stature (Drillis and Contini 1966, as printed in
    Winter 2009, fig. 4.1); the trail wrist 7 cm further down the shaft; all in one plane.
    To 6 %: the plane of the shoulders is nearer the camera than the scale's.
    """
    evidence = evidence_of(Filmed(StickGolfer(stature_m)))
    arm, shaft = np.radians(-12.0), np.radians(-4.0)
    along = SHOULDER_HALF_SHARE * stature_m + ARM_SHARE * stature_m * np.sin(arm)
    down = ARM_SHARE * stature_m * np.cos(arm)
    middle = [along + 0.035 * np.sin(shaft), down + 0.035 * np.cos(shaft)]
    got = take("hand path radius", evidence, at(ADDRESS)).value
    assert got == pytest.approx(float(np.hypot(*middle)), rel=0.06)


def test_a_wide_arc_shows_in_the_largest_radius_on_the_way_down() -> None:
    evidence = evidence_of(RIGHT_HANDER)
    span = When(TOP, P6, Extreme.LARGEST)
    px_per_m, since = scale_of(evidence).px_per_m, evidence.swing.at(TOP)
    assert since

    def wide(pose: Pose) -> dict[Landmark, FloatArray]:
        centre = pose.pixels[[LEFT.shoulder, RIGHT.shoulder]].mean(axis=0)
        hands = pose.pixels[[LEFT.wrist, RIGHT.wrist]].mean(axis=0)
        out = 0.1 * px_per_m * (hands - centre) / np.linalg.norm(hands - centre)
        return {w: pose.pixel(w) + out for w in (LEFT.wrist, RIGHT.wrist)}

    tight, wide_arc = evidence, placed(evidence, wide, since.time_ns)
    radii = [take("hand path radius", e, span).value for e in (tight, wide_arc)]
    assert radii[1] - radii[0] == pytest.approx(0.1, abs=0.01)
