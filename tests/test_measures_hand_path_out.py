"""The hand path down the line, against plane geometry."""

import numpy as np
import pytest

from baycue.measures.bearing import STANCE_SIGMA_DEG
from baycue.measures.behind import BEHIND, bearing_from_behind
from baycue.measures.evidence import Camera, SwingEvidence
from baycue.measures.hand_path_out import MEASURE, back_m
from baycue.measures.marks import Line, Role, Sight
from baycue.measures.scale import scale_of
from baycue.measures.when import Extreme, When
from baycue.plan.stance import View
from baycue.pose.pose import Landmark, Pose
from baycue.pose.sides import LEFT, RIGHT, Stance
from baycue.swing.swing import Checkpoint, CheckpointName, Swing

STATURE_M, AWAY_M, FOCAL_PX = 1.80, 4.0, 900.0
CAMERA = Camera(1280, 720, float(np.degrees(2 * np.arctan(640 / FOCAL_PX))))
TIMES_S = np.arange(0.0, 2.0, 1 / 60)
ADDRESS, P2, TOP = CheckpointName.ADDRESS, CheckpointName.P2, CheckpointName.TOP
AT_S = {"address": 0.9, "takeaway": 1.0, "P2": 1.4, "top": 1.8}
ARM_M = 0.6
SQUARE = -BEHIND.constant_deg / BEHIND.ankles_deg
"""How far the ankles seem apart, in statures, where the bearing is 0."""


def body_m(apart_m: float) -> np.ndarray:
    """(33, 3) across, down, away, of somebody seen from behind, of textbook proportions."""
    joints = np.zeros((33, 3))
    heights = {"ankle": 0.039, "knee": 0.285, "hip": 0.530, "shoulder": 0.818}
    for side, across in ((LEFT, apart_m / 2), (RIGHT, -apart_m / 2)):
        for part, share in heights.items():
            joints[getattr(side, part)] = (across * (part == "ankle"), -share * STATURE_M, 0.0)
    return joints


def pose(time_s: float, out_m: float, back: float, apart_m: float, mirror: bool) -> Pose:
    """The hands hang an arm's length below the shoulders, less what points to the camera."""
    world = body_m(apart_m)
    pixels = world[:, :2] * FOCAL_PX / AWAY_M
    drop_m = np.sqrt(ARM_M**2 - back**2 - out_m**2)
    shoulder_y = world[LEFT.shoulder, 1]
    for side in (LEFT, RIGHT):
        pixels[side.wrist] = np.array([out_m, shoulder_y + drop_m]) * FOCAL_PX / (AWAY_M - back)
        pixels[side.wrist, 1] = (shoulder_y + drop_m) * FOCAL_PX / AWAY_M
    if mirror:
        pixels[:, 0] *= -1
    return Pose(0, round(time_s * 1e9), pixels + np.array([640.0, 700.0]), world, np.ones(33))


def evidence(
    out_m: float, back: float = 0.0, apart_m: float = SQUARE * STATURE_M, left_leads: bool = True
) -> SwingEvidence:
    """Still until the takeaway, at P2 as asked and on to the top."""
    share = np.clip((TIMES_S - 1.0) / 0.3, 0.0, 1.0)
    poses = tuple(
        pose(t, s * out_m, s * back, apart_m, not left_leads)
        for t, s in zip(TIMES_S, share, strict=True)
    )
    found = tuple(Checkpoint(CheckpointName(n), round(t * 1e9), 5_000_000) for n, t in AT_S.items())
    stance = Stance(left_leads)
    return SwingEvidence(Swing(1, found), poses, (), stance, View.DOWN_THE_LINE, STATURE_M, CAMERA)


def out_at_p2(seen: SwingEvidence) -> float:
    return MEASURE.take(seen, When(P2, P2)).value


@pytest.mark.parametrize("left_leads", [True, False], ids=["ball right", "ball left"])
@pytest.mark.parametrize("out_m", [0.05, -0.08])
def test_hands_out_are_positive_on_the_balls_side(out_m: float, left_leads: bool) -> None:
    value = out_at_p2(evidence(out_m, left_leads=left_leads))
    assert value == pytest.approx(BEHIND.gain * out_m, abs=0.004)


def test_hands_that_come_nearer_the_camera_do_not_look_wider_out() -> None:
    """At 0.4 m nearer a camera 4 m away all looks a ninth wider; that is taken off."""
    near, far = out_at_p2(evidence(0.08, back=0.4)), out_at_p2(evidence(0.08))
    assert near == pytest.approx(far, abs=0.002)


def test_how_far_back_the_hands_are_is_what_is_missing_of_the_arms() -> None:
    seen = evidence(0.0, back=0.4)
    assert back_m(seen, scale_of(seen))[-1] == pytest.approx(0.4, abs=0.01)


def test_a_camera_further_round_sees_the_way_back_as_a_way_across() -> None:
    """Ankles seen further apart tell a bearing; its sine times the way back is added."""
    apart_m = (SQUARE + 0.02) * STATURE_M
    round_deg = BEHIND.ankles_deg * 0.02
    seen = evidence(0.0, back=0.4, apart_m=apart_m)
    assert bearing_from_behind(seen).deg == pytest.approx(round_deg, abs=0.2)
    assert out_at_p2(seen) == pytest.approx(
        BEHIND.along_share * np.sin(np.radians(round_deg)) * 0.4, abs=0.004
    )


def test_the_bearings_sigma_covers_a_stance_that_is_not_square() -> None:
    assert bearing_from_behind(evidence(0.0)).sigma_deg == pytest.approx(
        float(np.hypot(BEHIND.bearing_sigma_deg, STANCE_SIGMA_DEG))
    )


def test_a_lane_is_asked_by_the_largest_and_the_least_from_address_to_top() -> None:
    out, inside = evidence(0.06), evidence(-0.06)
    largest, least = When(ADDRESS, TOP, Extreme.LARGEST), When(ADDRESS, TOP, Extreme.LEAST)
    assert MEASURE.take(out, largest).value == pytest.approx(BEHIND.gain * 0.06, abs=0.008)
    assert MEASURE.take(inside, least).value == pytest.approx(-BEHIND.gain * 0.06, abs=0.008)
    assert MEASURE.take(out, largest).sigma > 0.02


def test_the_drawing_goes_from_the_plumb_line_of_address_to_the_hands() -> None:
    seen = evidence(0.05)
    marks = MEASURE.draw(Sight(seen.poses[-1], None, seen))
    (bar,) = [m for m in marks if isinstance(m, Line) and m.role is Role.MEASURED]
    (plumb,) = [m for m in marks if isinstance(m, Line) and m.role is Role.FROM]
    assert bar.points_px[1] == pytest.approx(seen.poses[-1].pixel(Landmark.LEFT_WRIST))
    assert bar.points_px[0][0] == pytest.approx(plumb.points_px[0][0])
