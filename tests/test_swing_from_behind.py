"""Checkpoints told by the hands, from a swing whose hands go as written here."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.optimize import brentq

from baycue.plan.stance import View
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Stance
from baycue.swing.checkpoints import find_checkpoints
from baycue.swing.events import StrikeSeen
from baycue.swing.from_behind import (
    P6_SHARE,
    P6_SHARE_SIGMA,
    RISEN,
    TAKEAWAY_SHARE,
    told_by_hands,
)
from baycue.swing.swing import Checkpoint, CheckpointName
from baycue.swing.swing_curves import Instant, SwingCurves, swing_curves
from baycue.synthetic.two_link import (
    Drive,
    Links,
    Start,
    constant_torque,
    swing_links,
    time_of_club,
)
from baycue.watch import before_takeaway_ns
from tests.canned_swing import minimum_jerk

STANCE = Stance(left_leads=True)
BODY_PX, SHOULDERS_Y = 400.0, 200.0
ARM_BODIES, ADDRESS_DEG, TOP_DEG = 0.42, 9.0, 135.0
TAKEAWAY_S, TOP_S, IMPACT_S = 1.0, 1.8, 2.06


def arm_deg(time_s: float) -> float:
    """How far the arms are turned back from hanging: by minimum jerk, then down ever faster."""
    if time_s < TOP_S:
        share = float(minimum_jerk(np.array((time_s - TAKEAWAY_S) / (TOP_S - TAKEAWAY_S))))
        return ADDRESS_DEG + (TOP_DEG - ADDRESS_DEG) * share
    return TOP_DEG * (1 - min((time_s - TOP_S) / (IMPACT_S - TOP_S), 1.0) ** 2)


def height(time_s: float) -> float:
    """The wrists above mid-shoulder, body lengths: arms that hang, shoulders turned."""
    return -ARM_BODIES * float(np.cos(np.radians(arm_deg(time_s)))) - 0.02


def pose_at(time_s: float) -> Pose:
    """Somebody seen end on: shoulders, hips and ankles each in one place."""
    pixels = np.full((33, 2), 640.0)
    heights = {"shoulder": 0.0, "hip": 0.4 * BODY_PX, "ankle": BODY_PX}
    for side in (LEFT, RIGHT):
        for part, down_px in heights.items():
            pixels[getattr(side, part), 1] = SHOULDERS_Y + down_px
        pixels[side.wrist, 1] = SHOULDERS_Y - BODY_PX * height(time_s)
    for finger in (Landmark.LEFT_INDEX, Landmark.RIGHT_INDEX):
        pixels[finger] = pixels[LEFT.wrist]
    return Pose(0, round(time_s * 1e9), pixels, np.zeros((33, 3)), np.ones(33))


def curves(fps: float = 60.0, impact: bool = True) -> SwingCurves:
    poses = tuple(pose_at(t) for t in np.arange(0.45, 2.2, 1 / fps))
    strike = StrikeSeen(*(round(t * 1e9) for t in (0.9, 1.2, TOP_S, IMPACT_S)))
    gone = Instant(round(IMPACT_S * 1e9), 5_000_000) if impact else None
    return swing_curves(strike, poses, (), STANCE, face_on=False, ball_gone=gone)


def found(fps: float = 60.0, impact: bool = True) -> dict[CheckpointName, Checkpoint]:
    return {c.name: c for c in find_checkpoints(curves(fps, impact))}


def passes_s(level: float, low_s: float, high_s: float) -> float:
    return float(brentq(lambda t: height(t) - level, low_s, high_s))


def test_every_checkpoint_up_to_impact_is_told_in_order() -> None:
    names = [c.name.value for c in find_checkpoints(curves())]
    assert names == ["address", "takeaway", "P2", "P3", "top", "P5", "P6", "impact"]


@pytest.mark.parametrize("fps", [30.0, 60.0, 120.0])
@pytest.mark.parametrize(
    ("name", "level", "span"),
    [
        ("P2", -0.323, (TAKEAWAY_S, TOP_S)),
        ("P3", -0.089, (TAKEAWAY_S, TOP_S)),
        ("P5", -0.064, (TOP_S, IMPACT_S)),
    ],
)
def test_the_hands_pass_their_heights_between_frames(
    fps: float, name: str, level: float, span: tuple[float, float]
) -> None:
    checkpoint = found(fps=fps)[CheckpointName(name)]
    assert checkpoint.time_ns * 1e-9 == pytest.approx(passes_s(level, *span), abs=0.004)
    assert 0.003 < checkpoint.sigma_ns * 1e-9 < 0.05


def test_a_slower_hand_is_less_sure_of_its_moment() -> None:
    told = found()
    assert told[CheckpointName.P5].sigma_ns < told[CheckpointName.P2].sigma_ns


def test_the_takeaway_is_carried_back_from_where_the_hands_are_seen_to_rise() -> None:
    risen_s = passes_s(height(TAKEAWAY_S) + RISEN, TAKEAWAY_S, TOP_S)
    takeaway = found()[CheckpointName.TAKEAWAY]
    carried_s = risen_s - TAKEAWAY_SHARE * (TOP_S - risen_s)
    assert takeaway.time_ns * 1e-9 == pytest.approx(carried_s, abs=0.006)
    assert takeaway.time_ns * 1e-9 < risen_s


def test_p6_is_a_share_of_the_way_from_p5_to_impact() -> None:
    told = found()
    p5, p6, impact = (told[CheckpointName(n)] for n in ("P5", "P6", "impact"))
    share = (p6.time_ns - p5.time_ns) / (impact.time_ns - p5.time_ns)
    assert share == pytest.approx(P6_SHARE, abs=1e-6)
    assert p6.sigma_ns > P6_SHARE_SIGMA * (impact.time_ns - p5.time_ns)


def test_the_published_two_link_swing_has_that_share_within_its_sigma() -> None:
    """The quoted parameters of the two-link model (see ``test_synthetic_two_link``): arm level at
    192.8 ms, shaft level at 291.8 ms, shaft upright at 340.8 ms; computed here."""
    swing = swing_links(Links(), Start(), Drive(constant_torque(100.0)), 10.0)
    level_s = brentq(lambda t: float(np.degrees(swing.state_at(t)[0])) + 90.0, 0.05, 0.3)
    p6_s, impact_s = time_of_club(swing, -90.0), time_of_club(swing, 0.0)
    share = (p6_s - level_s) / (impact_s - level_s)
    assert share == pytest.approx(0.669, abs=0.001)
    assert abs(share - P6_SHARE) < P6_SHARE_SIGMA


def test_hands_that_never_get_so_high_tell_no_p3_and_then_no_p6() -> None:
    seen = curves()
    assert seen.hands is not None
    low = replace(seen.hands, values=np.minimum(seen.hands.values, -0.2))
    takeaway, impact = (
        Checkpoint(CheckpointName(n), round(t * 1e9), 10_000_000)
        for n, t in (("takeaway", TAKEAWAY_S), ("impact", IMPACT_S))
    )
    told = told_by_hands(seen.strike, low, takeaway, impact)
    assert [c.name.value for c in told] == ["P2"]


def test_without_a_ball_impact_is_when_the_hands_are_back() -> None:
    impact = found(impact=False)[CheckpointName.IMPACT]
    assert impact.time_ns == round(IMPACT_S * 1e9)


def test_more_from_before_the_takeaway_is_kept_down_the_line() -> None:
    assert before_takeaway_ns(View.DOWN_THE_LINE) > before_takeaway_ns(View.FACE_ON)
